T0101
G97 S1000 M03
G00 X50. Z5.
G73 P10 Q20 U.4 W.1 F.2 (expect no move) (expect finding missing-pass-count)
N10 G00 X20. Z2.
G01 Z-10.
N20 X40.
G73 U4. W2. R2.5 (expect no move) (expect finding pass-count-not-whole)
G73 P30 Q40 U.4 W.1 F.2 (expect no move) (expect finding missing-pass-count)
N30 G00 X20. Z2.
G01 Z-10.
N40 X40.
G73 U4. W2. R-3 (expect no move) (expect finding not-above-zero)
G73 U4. W2. R30000 (expect no move) (expect finding too-many-passes)
G73 P50 Q60 U.4 W.1 D0 F.2 (expect no move) (expect finding not-above-zero) (expect finding missing-pass-count)
N50 G00 X20. Z2.
G01 Z-10.
N60 X40.
G73 P90 Q60 U.4 W.1 D2 F.2 (expect no move) (expect finding missing-profile-block)
M30
