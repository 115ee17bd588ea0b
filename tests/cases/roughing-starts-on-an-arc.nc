(The first profile block leads in, with G00 or G01)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U3. R1.
G71 P10 Q20 U.4 W.1 F.3 (expect no move)
N10 G02 X30. Z0 R10. (expect finding profile-starts-on-arc at 1)
G01 Z-20.
N20 X42.
M30
