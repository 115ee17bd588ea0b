(Only this program is searched)
O1
T0101
G97 S1000 M03
G00 X62. Z2.
GOTO50 (expect finding jump-target-missing)
M30
O2
N50 G00 X0 (expect no move)
M30
