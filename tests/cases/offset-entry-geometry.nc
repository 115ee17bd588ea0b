(In the sense of gauge_x_mm: the tip as seen from the turret reference point. P from 10001 on, or L10)
G10 P10001 X-120.4 Z-60. (expect no move)
T0101
G97 S1000 M03
G00 X50. Z2. (expect rapid X50 Z2)
G28 U0 W0 (expect home X239.6 Z210)
T0202
G10 L10 P1 W.5 (expect no move)
T0101
G00 X50. Z2. (expect rapid X50 Z2)
G28 U0 W0 (expect home X239.6 Z210.5)
M30
