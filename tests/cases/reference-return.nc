T0101
G97 S1000 M03
G00 X62. Z2.
G28 U0 W0 (expect home X240 Z210)
G00 X62. Z2.
G28 U10. W5. (through a point first) (expect rapid X72 Z7) (expect home X240 Z210)
G00 X62. Z2.
G28 U0 (one axis) (expect home X240 Z2)
G28 Z10. (expect rapid X240 Z10) (expect home X240 Z210)
G28 (expect no move) (expect finding reference-without-axes)
M30
