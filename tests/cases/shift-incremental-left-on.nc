T0101
G97 S1000 M03
G00 X62. Z2.
G50 W-5. (expect no move) (expect finding coordinate-shift-left-on at 1)
G00 Z2. (expect rapid X62 Z2)
G50 S2000
G28 U0 W0 (expect home X240 Z205)
M30
