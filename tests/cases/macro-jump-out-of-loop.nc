T0101
G97 S1000 M03
G00 X62. Z2.
#1=60.
WHILE[#1GT0]DO1
WHILE[#1GT0]DO2
#1=#1-20.
G00 X#1 (expect rapid X40)
GOTO5
END2 (expect finding blocks-not-reached)
END1
N5 X30. (expect rapid X30)
M30
