(U of the call is on diameter, the depth on radius)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U1. R.5
G71 P10 Q20 U2. W.1 F.3 (1 mm on radius, as much as a pass)
N10 G00 X38.
G01 Z-20.
N20 X42.
G71 P30 Q40 U2.4 W.1 F.3 (expect finding allowance-above-depth)
N30 G00 X38.
G01 Z-20.
N40 X42.
M30
