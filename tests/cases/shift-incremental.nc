(U and W: the display shows so much more than before; the same the other way takes it back)
T0101
G97 S1000 M03
G00 X62. Z2.
G50 W-5. (expect no move)
G00 Z2. (the turret goes 5 away from the chuck) (expect rapid X62 Z2)
G50 W5. U0 (expect no move)
G28 U0 W0 (expect home X240 Z210)
M30
