O1
T0101
G97 S1000 M03
G00 X62. Z2.
G65 P10 X[1/0] (expect finding cannot-calculate)
G00 X60. (expect rapid X60)
M30
O10
G00 X1. (not called) (expect no move)
M99
