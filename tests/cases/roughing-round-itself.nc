(The profile holds the cycle)
T0101
G97 S1000 M03
N10 G00 X42. Z2.
G71 U3. R1.
G71 P10 Q20 U.4 W.1 F.3 (expect no move) (expect finding missing-profile-block)
G01 X30. Z-20.
N20 X42.
M30
