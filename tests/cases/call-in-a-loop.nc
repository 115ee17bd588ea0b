O1
T0101
G97 S1000 M03
G00 X62. Z2.
#1=1
WHILE[#1LE3]DO1
G65 P[10*#1] X[60-#1]
#1=#1+1
END1
M30
O10
G00 X#24 (expect rapid X59)
M99
O20
G00 X#24 (expect rapid X58)
M99
O30
WHILE[#24GT50]DO1
G00 X#24 (expect rapid X57) (expect rapid X54) (expect rapid X51)
#24=#24-3
END1
M99
