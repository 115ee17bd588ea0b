(Z has to run one way, with pockets too)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U3. R.5
G71 P10 Q20 U0 W0 F.2
N10 G00 X30. W0
G01 Z-20.
X36. Z-18. (expect finding profile-not-monotonic at 1)
N20 X42.
M30
