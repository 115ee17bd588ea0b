(The code comes before the movement of its block, as every M code that does not stop the program)
T0101
G97 S1000 M03
G00 X62. Z2. M63 (expect dwell S2) (expect rapid X62 Z2)
G01 X60. F.2 M63 M08 (expect dwell X62 Z2 S2) (expect feed X60 Z2)
M30
