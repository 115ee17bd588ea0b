(The number may stand before a statement, an empty block or a stop)
T0101
G97 S1000 M03
G00 X62. Z2.
#1=50.
GOTO10
#1=1. (expect finding blocks-not-reached)
N10 #2=#1
G00 X#2 (expect rapid X50)
GOTO20
X1. (expect no move)
N20
X40. (expect rapid X40)
GOTO30
X2. (expect no move)
N30 IF[#1EQ50]GOTO40
X3. (expect no move)
N40 M30 (expect end)
