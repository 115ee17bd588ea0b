T0101
G97 S1000 M03
G00 X62. Z2.
#1=1
GOTO5 (expect finding jump-into-loop)
WHILE[#1LT3]DO1
N5 G00 X[50-#1] (expect rapid X49) (expect rapid X48)
#1=#1+1
END1
M30
