(G66: a groove after every move, until G67)
O1
T0101
G97 S1000 M03
G00 X62. Z2.
G66 P10 D2. F.1
G00 X60. Z-5. (expect rapid X60 Z-5)
G04 X1. (no move, no call) (expect dwell)
M08 (nor here)
Z-10. (expect rapid X60 Z-10)
G67
Z2. (expect rapid X60 Z2)
M30
O10
G01 U-#7 F#9 (expect feed X58 Z-5 F0.1) (expect feed X58 Z-10 F0.1)
G00 U#7 (expect rapid X60 Z-5) (expect rapid X60 Z-10)
M99
