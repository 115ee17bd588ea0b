(Lead 2 at the start, 0.1 more with every turn)
T0101
G97 S300 M03
G00 X28. Z6.
G34 Z-20. F2. K.1 (expect thread X28 Z-20 F2 change 0.1)
G00 X30.
Z6.
X28.
G34 Z-20. F2. K-.05 (expect thread X28 Z-20 F2 change -0.05)
M30
