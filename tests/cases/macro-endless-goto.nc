(option max-blocks 1000)
T0101
G97 S1000 M03
G00 X62. Z2.
N10 #1=#1+1
IF[#1EQ0]GOTO20
GOTO10 (expect finding endless-program)
N20 M30
