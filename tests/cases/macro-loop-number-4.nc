T0101
G97 S1000 M03
G00 X62. Z2.
WHILE[#1LT2]DO4 (expect finding loop-number at 15)
END4 (expect finding loop-number at 4)
M30
