(option whole-increments)
(Without a point a length counts thousandths of a millimetre; F and S do not)
T0101
G97 S1000 M03
G00 X62000 Z2000 (expect rapid X62 Z2)
G01 X58. F.2 (expect feed X58 Z2)
Z-20000 (expect feed X58 Z-20)
U1000 W-500 (expect feed X59 Z-20.5)
G02 X61. Z-21.5 R1000 (expect arc-cw X61 Z-21.5)
G01 Z-30000 ,C1000 (expect feed X61 Z-29) (expect feed X63 Z-30)
X70000 (expect feed X70 Z-30)
X74000 A135000 (expect feed X74 Z-32)
G04 X500 (expect dwell S0.5)
M30
