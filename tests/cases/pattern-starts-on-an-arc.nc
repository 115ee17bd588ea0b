(The first profile block leads in, with G00 or G01)
T0101
G97 S1000 M03
G00 X50. Z5.
G73 U2. W1. R2
G73 P10 Q20 U0 W0 F.2 (expect no move)
N10 G03 X20. Z2. R30. (expect finding profile-starts-on-arc at 1)
G01 Z-10.
N20 X40.
M30
