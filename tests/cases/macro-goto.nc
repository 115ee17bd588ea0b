(Forwards first, then from the beginning)
T0101
G97 S1000 M03
G00 X62. Z2.
GOTO30
N10 G00 X50. (expect rapid X50)
GOTO 40
N30 G00 X60. (expect rapid X60)
GOTO10
N40 X40. (expect rapid X40)
#1=5
GOTO#1
X1. (jumped over) (expect no move) (expect finding blocks-not-reached)
N5 X30. (expect rapid X30)
GOTO[#1*12]
X2. (expect no move)
N60 M30 (expect end)
