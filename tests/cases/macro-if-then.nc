T0101
G97 S1000 M03
G00 X62. Z2.
#1=3
IF[#1EQ3]THEN#2=50.
IF[#1EQ4]THEN#2=1.
IF [ [#1 GT 2] AND [#1 LT 4] ] THEN #3=40.
if[#1ne3]then#3=1.
G00 X#2 (expect rapid X50)
X#3 (expect rapid X40)
IF[#1]THEN#3=30. (any value but zero is true)
X#3 (expect rapid X30)
IF[#1-3]THEN#3=2.
X#3 (expect no move)
M30
