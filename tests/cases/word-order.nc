(NISTIR 6556 sec. 3.3.6: the order of words has no meaning, row TC009)
T0101
M03 S1000 G97
Z2. X62. G00 (expect rapid X62 Z2)
X1. G1 F2 (expect feed X1 Z2 F2)
F.2 Z-5. G01 X20. (expect feed X20 Z-5 F0.2)
M30
