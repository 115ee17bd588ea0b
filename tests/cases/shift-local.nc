(G52 within the work offset, until G52 X0 Z0)
T0101
G97 S1000 M03
G00 X62. Z2. (expect rapid X62 Z2)
G52 Z-10. (expect no move)
G00 Z2. (expect rapid X62 Z2)
G28 U0 W0 (10 of the display more than without) (expect home X240 Z220)
G52 X0 Z0 (expect no move)
G28 U0 W0 (expect no move)
G00 X62. Z2. (expect rapid X62 Z2)
G28 U0 W0 (expect home X240 Z210)
G52 (expect no move) (expect finding local-shift-without-axes at 1)
M30
