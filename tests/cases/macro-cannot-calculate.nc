(The control stops; the trial leaves out what needs the value)
T0101
G97 S1000 M03
G00 X62. Z2.
#1=5/#2 (expect finding cannot-calculate at 5)
G01 X[50+SQRT[-4]] F.2 (expect finding cannot-calculate at 10) (expect no move)
G01 X#[#2] (expect finding cannot-calculate at 6) (expect no move)
G01 X50. (expect feed X50)
IF[LN[0]EQ1]GOTO10 (expect finding cannot-calculate at 4)
X48. (expect feed X48)
N10 M30
