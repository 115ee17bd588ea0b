(Offset 11 has wear X0.1 on diameter and Z0.02: the turret stands that much farther out)
T0101
G97 S1000 M03
G00 X50. Z2. (expect rapid X50 Z2)
T0111 (expect no move)
G28 U0 W0 (expect home X239.9 Z209.98)
G00 X50. Z2. (expect rapid X50 Z2)
M30
