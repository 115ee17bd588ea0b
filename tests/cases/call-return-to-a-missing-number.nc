O1
T0101
G97 S1000 M03
G00 X62. Z2.
M98 P2 (expect finding jump-target-missing)
G00 X60. (expect no move)
M30
O2
M99 P60
