T0101
G97 S1000 M03
G00 X42. Z2.
G71 U-3. R-1. (expect no move) (expect finding not-above-zero)
G71 P10 Q20 U.4 W.1 F.3 (expect no move) (expect finding missing-depth-of-cut)
N10 G00 X30.
G01 Z-20.
N20 X42.
M30
