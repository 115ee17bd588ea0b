(Corners are put in first, then the path is compensated: as if they were written out)
T0101
G97 S1000 M03
G00 X62. Z2.
G42 X20.
G01 Z0 F.1 (expect feed X20 Z0)
X30. ,C1. (expect feed X27.063 Z0) (expect feed X30 Z-1.469)
Z-20. ,R2. (the fillet of 2 shrinks to 1.2) (expect feed X30 Z-18.8) (expect arc-cw X32.4 Z-20 I1.2 K0)
X62. (expect feed X60.4 Z-20)
G40 G00 Z2.
M30
