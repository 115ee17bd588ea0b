(Words that mean nothing in the first of two blocks, or in the call)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U3. W1. R1. (expect finding unknown-word unproven)
G71 P10 Q20 U.4 W.1 X5. F.3 (expect finding unknown-word unproven)
N10 G00 X30.
G01 Z-20.
N20 X42.
M30
