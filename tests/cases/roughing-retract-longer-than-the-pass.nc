(At 45 degrees, but not farther back than the start)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U3. R5.
G71 P10 Q20 U0 W0 F.3 (expect rapid X36. Z2. pass 1) (expect feed X36. Z-1. pass 1) (expect feed X46. Z2. pass 1) (expect rapid X31. Z2. pass 2) (expect rapid X42. Z2. pass 2)
N10 G00 X31.
G01 Z-1.
N20 X42.
M30
