(#5001 #5002: the end of the last block; #5021 #5022: machine coordinates)
T0101
G97 S1000 M03
G00 X62. Z2.
G00 X50. Z-3. (expect rapid X50 Z-3)
#1=#5001
#2=#5002
G28 U0 W0
G00 X[#1-2] Z[#2+1] (expect rapid X48 Z-2)
G28 U0 W0
IF[#5021NE0]GOTO99
IF[#5022NE0]GOTO99
G00 X#1 (the reference position is zero) (expect rapid X50)
N99 M30
