(M30 typed for M03: the control would stop here, and what follows never runs)
T0101
G97 S1000 M30 (expect end)
G00 X62. Z2. (expect no move) (expect finding blocks-behind-end unproven)
G01 X60. F.2
M30
