(Back where it was set: the next cycle sets the same, so this is only a note)
T0101
G97 S1000 M03
G50 X200. Z150. (expect no move) (expect finding coordinate-shift-left-on at 1)
G00 X62. Z2. (expect rapid X62 Z2)
X200. Z150. (expect rapid X200 Z150)
M30
