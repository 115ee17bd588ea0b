(The P and Q of a cycle are those of the program it stands in)
O1
T0101
G97 S1000 M03
G00 X62. Z2.
N10 G00 X62. (not this one)
M98 P2
M30
O2
G71 U3. R.5
G71 P10 Q20 U0 W0 F.3
N10 G00 X50.
G01 Z-5.
N20 X62. (expect feed X62 Z-5 pass 2) (expect feed X62 Z-5 pass 1)
G70 P10 Q20
M99
