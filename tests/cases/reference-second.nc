(G30 goes to the second reference position, X-40 Z-50 in machine coordinates, by way of a point)
T0101
G97 S1000 M03
G00 X62. Z2.
G30 U0 W0 (expect home X200 Z160)
G00 X62. Z2.
G30 P2 U10. W5. (expect rapid X72 Z7) (expect home X200 Z160)
G00 X62. Z2.
G30 P3 U0 W0 (expect no move) (expect finding reference-not-in-setup at 1 unproven)
G30 P5 U10. (expect rapid X72 Z2) (expect finding no-such-reference at 5)
G30 (expect no move) (expect finding reference-without-axes)
M30
