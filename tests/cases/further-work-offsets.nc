T0101
G97 S1000 M03
G00 X62. Z2.
G54.1 P1 (expect no move)
G00 X62. (20 nearer to the chuck) (expect no move)
Z2. (expect rapid X62 Z2) (expect state work-offset 60)
G28 W0 (expect home X62 Z230)
G54.1 P2 (expect finding work-offset-not-given at 1 unproven)
G54.1 P49 (expect finding no-such-work-offset at 7)
G54.1 (expect finding no-such-work-offset at 1)
G54 Z2. (expect rapid X62 Z2) (expect state work-offset 54)
M30
