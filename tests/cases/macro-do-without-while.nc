(DO alone goes round until a jump leaves it)
T0101
G97 S1000 M03
G00 X62. Z2.
#1=60
DO1
#1=#1-5
G00 X#1 (expect rapid X55) (expect rapid X50) (expect rapid X45)
IF[#1LE45]GOTO9
END1
N9 M30 (expect end)
