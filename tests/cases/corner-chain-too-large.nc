(The first corner has taken 1 of the step of 3: for the second 2 are left)
T0101
G97 S1000 M03
G00 X30. Z0
G01 Z-20. ,R1. F.2 (expect feed X30 Z-19) (expect arc-cw X32 Z-20 I1 K0)
X36. ,R2.001 (expect feed X36 Z-20) (expect finding corner-does-not-fit at 6)
Z-40. (expect feed X36 Z-40)
M30
