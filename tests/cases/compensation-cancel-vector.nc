T0101
G97 S1000 M03
G00 X62. Z2.
G42 G01 X58. F.2
Z-10.
G40 G01 X62. I2. K0 (a wall to leave at) (expect feed X62 Z-10 comp off) (expect finding cancel-vector-not-modelled at 1 unproven)
M30
