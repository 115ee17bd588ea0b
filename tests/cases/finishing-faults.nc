T0101
G97 S1000 M03
G00 X42. Z2.
G70 P10 Q20 U.4 F.3 (it takes no allowance) (expect finding unknown-word unproven)
N10 G00 X30.
G01 Z-20.
N20 X42.
G70 Q20 (expect no move) (expect finding missing-profile-block)
G70 P20 Q10 (expect no move) (expect finding missing-profile-block)
G70 P10 Q10 F.3 (expect rapid X42. Z2. pass 1) (expect finding profile-of-one-block unproven)
M30
