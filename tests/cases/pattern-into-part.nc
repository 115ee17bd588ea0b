(What comes off, or the allowance, has the wrong sign)
T0101
G97 S1000 M03
G00 X50. Z5.
G73 U-4. W0 R2
G73 P10 Q20 U.4 W.1 F.2 (expect finding pattern-into-part)
N10 G00 X20. Z2.
G01 Z-10.
N20 X40.
G73 U4. W0 R2
G73 P30 Q40 U-.4 W.1 F.2 (expect finding allowance-into-part)
N30 G00 X20. Z2.
G01 Z-10.
N40 X40.
M30
