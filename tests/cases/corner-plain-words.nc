(option plain-corners)
(R and C without comma in blocks of one axis; with a sign they say where the next move goes, as I and K always do)
T0101
G97 S1000 M03
G00 X20. Z0
G01 X30. C1. F.2 (expect feed X28 Z0) (expect feed X30 Z-1)
Z-20. R2. (expect feed X30 Z-18) (expect arc-cw X34 Z-20 I2 K0)
X40. K-1. (expect feed X38 Z-20) (expect feed X40 Z-21)
Z-30. I1. (expect feed X40 Z-29) (expect feed X42 Z-30)
X50. R-3. (expect feed X44 Z-30) (expect arc-ccw X50 Z-33 I0 K-3)
Z-40. I-1. (expect feed X50 Z-40) (expect finding corner-does-not-fit at 7)
X54. K-1. (expect feed X54 Z-40) (expect finding corner-does-not-fit at 6)
Z-36. (expect feed X54 Z-36)
X56. Z-40. R1. (expect feed X56 Z-40) (expect finding unknown-word at 12 unproven)
M30
