(option whole-increments)
(A ten-thousandth of an inch)
G20
T0101
G97 S1000 M03
G00 X20000 Z1000 (expect rapid X50.8 Z2.54)
G01 Z-5000 F.008 (expect feed X50.8 Z-12.7)
M30
