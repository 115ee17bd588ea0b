O1
T0101
G97 S1000 M03
G00 X62. Z2.
M98 P2
G00 X1. (expect no move) (expect finding blocks-behind-end unproven)
M30
O2
G00 X50. (expect rapid X50)
M30 (expect finding program-end-in-subprogram) (expect end)
