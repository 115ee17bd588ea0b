T0101
G97 S1000 M03
G00 X62. Z2.
#1=1
WHILE[#1LT2]DO1
WHILE[#1LT2]DO2
#1=#1+1
G00 X50. (expect rapid X50)
END1 (expect finding loops-cross)
END2
M30
