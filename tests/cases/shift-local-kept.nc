T0101
G97 S1000 M03
G00 X62. Z2.
G52 W-1.
G55 (expect finding local-shift-kept at 1 unproven)
G00 Z2. (expect rapid X62 Z2) (expect state work-offset 55)
M30
