(The start is behind the highest Z of the profile)
T0101
G97 S1000 M03
G00 X62. Z0
G72 W2. R.5
G72 P10 Q20 U0 W0 F.2 (expect finding cycle-start-inside-profile)
N10 G00 Z-5.
G01 X40.
N20 Z1.
M30
