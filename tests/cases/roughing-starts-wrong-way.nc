(G71 has to come down in X: a profile that starts along Z is refused)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U3. R1.
G71 P10 Q20 U.4 W.1 F.3 (expect no move)
N10 G00 Z0 (expect finding profile-starts-wrong-way at 1)
G01 X30.
Z-20.
N20 X42.
G00 Z5. (expect rapid X42. Z5.)
M30
