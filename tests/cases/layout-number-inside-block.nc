(Words beside the O word are carried out)
O1 (FIRST)
T0101
G97 S1000 M03
G00 X62. Z2.
M98 P2
M30
O2 G00 X50. (expect rapid X50)
M99
