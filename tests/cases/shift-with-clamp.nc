(One G50 may do both, and S alone shifts nothing)
T0101
G97 S1000 M03
G00 X62. Z2.
G50 X60. S1500 (expect no move) (expect finding coordinate-shift-left-on at 1)
G00 Z1. (expect rapid X60 Z1) (expect state clamp 1500)
G50 S2000 (expect no move)
G00 X50. (expect rapid X50 Z1) (expect state clamp 2000)
M30
