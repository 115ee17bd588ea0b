T0101
G97 S1000 M03
G10 L20 P2 Z-280. X0 (expect no move)
G54.1 P2 G00 X62. Z2. (expect rapid X62 Z2)
G28 W0 (expect home X62 Z220)
G10 L20 P49 Z0 (expect finding no-such-offset at 9)
G10 L20 Z0 (expect finding no-such-offset at 1)
M30
