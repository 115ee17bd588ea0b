(Z in machine coordinates: G54 stands at Z-270 of this lathe; X from the axis)
T0101
G97 S1000 M03
G10 L2 P1 X0 Z-271. (1 nearer to the chuck) (expect no move)
G00 X62. Z2. (expect rapid X62 Z2)
G28 U0 W0 (expect home X240 Z211)
G10 L2 P1 W-1. (1 more) (expect no move)
G00 X62. Z2. (expect rapid X62 Z2)
G28 U0 W0 (expect home X240 Z212)
G10 L2 P6 Z-250. (G59, which the set-up does not give) (expect no move)
G59 G00 X62. Z2. (expect rapid X62 Z2)
M30
