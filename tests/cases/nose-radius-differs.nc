T0112
G97 S1000 M03
G00 X62. Z2.
G42 G01 X58. F.2 (the radius of the offset counts: 0.4) (expect feed X58 Z1.6) (expect finding nose-radius-differs at 1)
Z-10. (expect feed X58 Z-10.4)
G40 X62. (expect feed X62 Z-10)
M30
