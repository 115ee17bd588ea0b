T0101
G97 S1000 M03
G00 X62. Z2.
WHILE[#1EQ#0]DO1 (expect finding loop-without-end)
G00 X50. (expect rapid X50)
M30
