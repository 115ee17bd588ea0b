(Z turns back and the first block names Z only: pockets are not cut)
T0101
G97 S1000 M03
G00 X62. Z1.
G72 W2. R.5
G72 P10 Q20 U0 W0 F.2
N10 G00 Z-2.
G01 X50.
Z-5. X46. (expect finding profile-not-monotonic at 1 unproven)
X36.
N20 Z0
M30
