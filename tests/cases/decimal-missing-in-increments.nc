(option whole-increments)
(A length of hardly anything among lengths with a point)
T0101
G97 S1000 M03
G00 X62. Z2.
G01 X50 F.2 (expect feed X0.05 Z2) (expect finding decimal-point-missing at 5)
X58. (expect feed X58 Z2)
Z-20. (expect feed X58 Z-20)
X60. W-1 (expect feed X60 Z-20.001) (expect finding decimal-point-missing at 6)
X0 (zero is zero) (expect feed X0)
X60000 (expect feed X60)
X62. A135 (expect feed X62) (expect finding decimal-point-missing at 6)
M30
