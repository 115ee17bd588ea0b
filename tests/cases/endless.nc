T0101
G97 S1000 M03
G00 X62. Z2.
M99 (expect finding endless-program at 1)
G01 X0 (expect no move)
