T0101
G97 S1000 M03
G00 X62. Z2.
G72 P10 Q20 U.4 W.1 F.2 (expect no move) (expect finding missing-depth-of-cut)
N10 G00 Z-5.
G01 X40.
N20 Z1.
G72 W-2. R.5 (expect finding not-above-zero)
G72 P30 Q40 U.4 W.1 F.2 (expect no move) (expect finding missing-depth-of-cut)
N30 G00 Z-5.
G01 X40.
N40 Z1.
M30
