(#3000: the program stops itself)
T0101
G97 S1000 M03
G00 X62. Z2.
#1=5
IF[#1LT10]THEN#3000=21(BAR TOO SHORT) (expect finding program-alarm)
G01 X0 F.2 (expect no move)
M30
