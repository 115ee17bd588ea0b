(W moves the whole profile: the wall that faces the chuck is cut into by as much)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U4. R.5
G71 P10 Q20 U0 W.2 F.2 (expect finding allowance-into-part at 1)
N10 G00 X36. W0
G01 Z-10.
X30.
Z-20.
X36.
N20 Z-30.
M30
