(Statements do not disturb what compensation reads ahead)
T0101
G97 S1000 M03
G00 X62. Z2.
#1=40.
G42 G00 X#1 Z1. (expect rapid comp right)
#2=-10.
G01 Z#2 F.2
IF[#2GT0]GOTO99
#3=#5001+10. (the programmed end point is known at once)
X#3
G40 X70. Z5. (expect feed X70 Z5)
N99 M30
