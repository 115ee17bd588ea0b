T0101
G97 S1000 M03
G00 X62. Z2.
#1=1
WHILE[#1LT2]DO1
WHILE[#1LT2]DO1 (expect finding loop-number)
#1=#1+1
END1
END1 (expect finding loop-without-start)
M30
