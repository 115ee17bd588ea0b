T0101
G97 S1000 M03
G00 X62. Z2.
G71 U2. R.5
G71 P100 Q200 U.4 W.1 F.3 (expect no move) (expect finding missing-profile-block at 5)
G71 P10 Q200 U.4 W.1 (expect no move) (expect finding missing-profile-block at 9)
G70 P10 (expect no move) (expect finding missing-profile-block)
G70 P20 Q10 (expect no move) (expect finding missing-profile-block at 9)
N10 G00 X30. (expect rapid X30 Z2)
N20 Z1. (expect rapid X30 Z1)
M30
