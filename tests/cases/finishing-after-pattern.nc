(G70 behind G73)
T0101
G97 S1000 M03
G00 X50. Z5.
G73 U4. W2. R2
G73 P10 Q20 U.4 W.1 F.2
N10 G00 X20. Z2. (expect rapid X20. Z2. pass 1)
G01 Z-10. F.1 (expect feed X28.4 Z-7.9 pass 1) (expect feed X20.4 Z-9.9 pass 2) (expect feed X20. Z-10. pass 1)
N20 X40. (expect feed X48.4 Z-7.9 pass 1) (expect feed X40.4 Z-9.9 pass 2) (expect feed X40. Z-10. pass 1)
G70 P10 Q20 (expect rapid X50. Z5. pass 1)
M30
