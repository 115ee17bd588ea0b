(option whole-units)
(Farther than the machine travels, where increments would be within it)
T0101
G97 S1000 M03
G00 X62 Z2
G01 X58000 F.2 (expect feed X58000 Z2) (expect finding decimal-point-missing at 5)
X58 (expect feed X58 Z2)
Z-20000 (expect feed X58 Z-20000) (expect finding decimal-point-missing at 1)
Z-500 (long, but there is such a way) (expect feed X58 Z-500)
M30
