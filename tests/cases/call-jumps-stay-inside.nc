(GOTO searches the program it stands in)
O1
T0101
G97 S1000 M03
G00 X62. Z2.
M98 P2
N10 G00 X40. (expect rapid X40)
M30
O2
GOTO10 (expect finding sequence-number-twice unproven)
N5 G00 X1. (expect no move)
N10 G00 X50. (expect rapid X50)
M99
N10 X2. (expect no move)
