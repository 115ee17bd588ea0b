(A cylinder and its shoulder, modal words left out)
G21 G40 G99
T0101 (expect index S0.6)
G97 S1000 M03
G00 X62. Z2. M08 (expect rapid X62 Z2) (expect state spindle 1 speed 1000 surface-speed 0 coolant 1 feed-per-rev 1)
X50. (expect rapid X50 Z2)
G01 Z-20. F.25 (expect feed X50 Z-20 F0.25)
X62. (expect feed X62 Z-20 F0.25)
G00 Z2. M09 (expect rapid X62 Z2) (expect state coolant 0)
M30 (expect no move) (expect end)
