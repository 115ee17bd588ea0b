T0101
G97 S1000 M03
G00 X42. Z2.
G71 U3. R1.
G71 P20 Q10 U.4 W.1 (Q above P) (expect no move) (expect finding missing-profile-block)
G71 P10.5 Q20 U.4 W.1 (no whole number) (expect no move) (expect finding missing-profile-block)
G71 P-10 Q20 U.4 W.1 (expect no move) (expect finding missing-profile-block)
G71 Q20 U.4 W.1 (expect no move) (expect finding missing-profile-block)
G71 P10 Q20 U.4 W.1 F.3
N10 G00 X30.
G01 Z-20.
N20 X42.
G71 P10 Q10 U.4 W.1 F.3 (a profile of one block has no shape) (expect no move) (expect finding missing-profile-block)
G00 Z5. (expect rapid X42. Z5.)
M30
