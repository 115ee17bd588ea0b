(ROUND in a word: to a whole number here, to the least increment on some controls)
T0101
G97 S1000 M03
G00 X62. Z2.
#1=49.6
G00 X[ROUND[#1]] (expect rapid X50) (expect finding controls-calculate-otherwise unproven)
#2=ROUND[#1]-1
X#2 (expect rapid X49)
M30
