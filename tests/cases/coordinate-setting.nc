T0101
G50 X200. Z100. (expect no move) (expect finding coordinate-setting at 1 unproven)
G97 S500 M03
G00 X62. Z2. (expect rapid X62 Z2)
G50 X200. S1500 (expect no move) (expect finding coordinate-setting at 1 unproven)
G00 Z1. (expect state clamp 1500 speed 500)
M30
