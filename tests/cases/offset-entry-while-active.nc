(The offset in force: from the next block on, or from the next T word)
T0101
G97 S1000 M03
G00 X50. Z2. (expect rapid X50 Z2)
G10 P1 U.2 (expect no move) (expect finding offset-changed-while-active at 1 unproven)
G00 X50. (expect rapid X50 Z2)
T0101 (expect no move)
G28 U0 W0 (expect home X239.8 Z210)
M30
