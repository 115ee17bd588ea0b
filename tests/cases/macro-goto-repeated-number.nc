(A number that is there twice: the first one forwards, with a note)
T0101
G97 S1000 M03
G00 X62. Z2.
N10 G00 X60. (expect rapid X60)
GOTO20 (expect finding sequence-number-twice unproven)
X1. (expect no move) (expect finding blocks-not-reached)
N20 X50. (expect rapid X50)
X48. (expect rapid X48)
GOTO30
N20 X2. (expect no move)
N10 X3. (runs backwards and repeats; nobody names it) (expect no move)
N30 M30
