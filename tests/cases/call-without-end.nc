(The text of the called program is at its end without M99)
O1
T0101
G97 S1000 M03
G00 X62. Z2.
M98 P2 (expect finding subprogram-without-end)
G00 X60. (expect rapid X60)
M30
O2
G00 X50. (expect rapid X50)
O3
G00 X1. (expect no move)
