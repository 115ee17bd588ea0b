T0101
G97 S1000 M03
G00 X62. Z2.
G01 X5000000. Z1. F.2 (expect feed X62 Z1) (expect finding number-out-of-range at 5)
M30
