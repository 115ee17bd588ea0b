(G50 says what the position display is to show where the turret stands)
T0101
G97 S1000 M03
G00 X62. Z2. (expect rapid X62 Z2)
G50 X200. Z100. (expect no move) (expect finding coordinate-shift-left-on at 1)
G00 X190. Z98. (as far as from X62 Z2 to X52 Z0) (expect rapid X190 Z98)
G53 X-260. Z-208. (machine coordinates know no shift) (expect rapid X118 Z100)
M30
