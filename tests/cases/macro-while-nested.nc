T0101
G97 S1000 M03
G00 X62. Z2.
#1=0
WHILE[#1LT2]DO1
#2=0
WHILE[#2LT2]DO2
#3=0
WHILE[#3LT1]DO3
G00 X[60-10*#1-2*#2] (expect rapid X60) (expect rapid X58) (expect rapid X50) (expect rapid X48)
#3=#3+1
END3
#2=#2+1
END2
#1=#1+1
END1
M30 (expect end)
