(G72 has to come down in Z)
T0101
G97 S1000 M03
G00 X62. Z2.
G72 W2. R.5
G72 P10 Q20 U.4 W.1 F.2 (expect no move)
N10 G00 X40. (expect finding profile-starts-wrong-way at 1)
G01 Z-5.
N20 X20.
M30
