(Blocks behind M30 are reached by a jump only)
T0101
G97 S1000 M03
G00 X62. Z2.
GOTO100
N10 G00 X40. (expect rapid X40)
M30 (expect end)
N100 G00 X50. (expect rapid X50)
GOTO10
