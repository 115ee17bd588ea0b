(M99 P in the main program is a jump)
T0101
G97 S1000 M03
G00 X62. Z2.
N10 #1=#1+1
G00 X[60-#1] (expect rapid X59) (expect rapid X58)
IF[#1GE2]GOTO20
M99 P10
N20 M30 (expect end)
