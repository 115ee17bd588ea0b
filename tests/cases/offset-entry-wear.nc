(Wear X0.2 on diameter: the turret stands that much farther out; U adds to it)
G10 P1 X.2 Z.05 (expect no move)
T0101
G97 S1000 M03
G00 X50. Z2. (expect rapid X50 Z2)
G28 U0 W0 (expect home X239.8 Z209.95)
T0100
G10 L11 P1 U-.1 (expect no move)
T0101
G00 X50. Z2. (expect rapid X50 Z2)
G28 U0 W0 (expect home X239.9 Z209.95)
M30
