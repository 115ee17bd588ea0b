(EQ and NE tell null from zero; the other comparisons do not)
T0101
G97 S1000 M03
G00 X62. Z2.
IF[#1EQ#0]THEN#10=50.
G00 X#10 (expect rapid X50)
IF[#1EQ0]THEN#10=99.
X#10 (expect no move)
#1=0
IF[#1EQ#0]THEN#10=98.
IF[#1NE#0]THEN#10=40.
X#10 (expect rapid X40)
IF[#2GE0]THEN#10=30.
X#10 (expect rapid X30)
IF[#2LT0]THEN#10=97.
X#10 (expect no move)
M30
