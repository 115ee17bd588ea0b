(G53 counts from the reference position, whatever tool and datum are in force)
T0101
G97 S1000 M03
G00 X62. Z2.
G53 G00 X-20. Z-30. (expect rapid X220 Z180)
G00 X62. Z2. (expect rapid X62 Z2)
G53 X0 Z0 (expect rapid X240 Z210)
M30
