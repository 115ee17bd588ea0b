(P0 counts for every work offset)
T0101
G97 S1000 M03
G10 L2 P0 Z-3. (expect no move)
G00 X62. Z2. (expect rapid X62 Z2)
G28 W0 (expect home X62 Z213)
G55 G00 Z2. (expect rapid X62 Z2)
G28 W0 (expect home X62 Z223)
M30
