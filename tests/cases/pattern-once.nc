(R1: one pass at the finish allowance)
T0101
G97 S1000 M03
G00 X50. Z5.
G73 U4. W2. R1
G73 P10 Q20 U.4 W.1 F.2 (expect rapid X50.4 Z5.1 pass 1) (expect rapid X20.4 Z2.1 pass 1) (expect rapid X50. Z5. pass 1)
N10 G00 X20. Z2. (expect no move)
G01 Z-10. (expect feed X20.4 Z-9.9 pass 1)
N20 X40. (expect feed X40.4 Z-9.9 pass 1)
M30
