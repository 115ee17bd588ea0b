(What comes off and the number of passes hold for the calls that follow; D of one call is for that call)
T0101
G97 S1000 M03
G00 X50. Z5.
G73 U2. W1. R2
G73 P10 Q20 U0 W0 D1 F.2 (expect rapid X20. Z2. pass 1) (expect rapid X50. Z5. pass 1)
N10 G00 X20. Z2.
G01 Z-10.
N20 X40.
G73 P30 Q40 U0 W0 F.2 (expect rapid X54. Z6. pass 1) (expect rapid X24. Z3. pass 1) (expect rapid X50. Z5. pass 2) (expect rapid X20. Z2. pass 2) (expect rapid X50. Z5. pass 2)
N30 G00 X20. Z2.
G01 Z-10.
N40 X40.
M30
