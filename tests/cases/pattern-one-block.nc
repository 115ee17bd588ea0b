(I on radius and K come off in D passes)
T0101
G97 S1000 M03
G00 X50. Z5.
G73 P10 Q20 I4. K2. U.4 W.1 D2 F.2 (expect rapid X58.4 Z7.1 pass 1) (expect rapid X28.4 Z4.1 pass 1) (expect rapid X50.4 Z5.1 pass 2) (expect rapid X20.4 Z2.1 pass 2) (expect rapid X50. Z5. pass 2)
N10 G00 X20. Z2. (expect no move)
G01 Z-10. (expect feed X28.4 Z-7.9 pass 1) (expect feed X20.4 Z-9.9 pass 2)
N20 X40. (expect feed X48.4 Z-7.9 pass 1) (expect feed X40.4 Z-9.9 pass 2)
M30
