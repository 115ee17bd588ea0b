O1
T0101
G97 S1000 M03
G00 X42. Z2.
G70 P10 Q20 (expect no move) (expect finding missing-profile-block at 5)
M30
O2
N10 G00 X30. (expect no move)
G01 Z-20. F.1
N20 X42.
M30
