O1
T0101
G97 S1000 M03
G00 X62. Z2.
G71 U2. R.5
G71 P10 Q20 U.4 W.1 F.3
N10 G00 X40.
G01 Z-10. F.2
M98 P2 (expect finding not-allowed-in-profile unproven)
N20 X60.
M30
O2
G01 X1. (expect no move)
M99
