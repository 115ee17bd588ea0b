(What may stand behind =; the next block shows what came of it)
T0101
G97 S1000 M03
G00 X62. Z2.
#1=50 
G00 X#1 (expect rapid X50)
#1=#1-2*[3+1]
X#1 (expect rapid X42)
# 1 = - #1 + 82
X#1 (expect rapid X40)
#100=#1/2
X#100 (expect rapid X20)
#500=#100+5.5
X#500 (expect rapid X25.5)
N5 #1=30. (with a sequence number)
X#1 (expect rapid X30)
/#1=31. (and with a skip mark, the switch being off)
X#1 (expect rapid X31)
M30
