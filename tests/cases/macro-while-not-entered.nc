T0101
G97 S1000 M03
G00 X62. Z2.
WHILE[#1GT0]DO1
G00 X0 (expect no move) (expect finding blocks-not-reached)
END1
WHILE[#1EQ#0]DO1 (the number may be used again)
G00 X50. (expect rapid X50)
#1=1
END1
M30 (expect end)
