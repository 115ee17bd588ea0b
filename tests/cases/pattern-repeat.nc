(A casting: 4 on radius and 2 in Z come off in three passes, the last of them at the finish allowance)
T0101
G97 S1000 M03
G00 X50. Z5.
G73 U4. W2. R3 (expect no move)
G73 P10 Q20 U.4 W.1 F.2 (expect rapid X58.4 Z7.1 pass 1) (expect rapid X28.4 Z4.1 pass 1) (expect rapid X54.4 Z6.1 pass 2) (expect rapid X24.4 Z3.1 pass 2) (expect rapid X50.4 Z5.1 pass 3) (expect rapid X20.4 Z2.1 pass 3) (expect rapid X50. Z5. pass 3)
N10 G00 X20. Z2. (expect no move)
G01 Z-10. F.1 (expect feed X28.4 Z-7.9 pass 1) (expect feed X24.4 Z-8.9 pass 2) (expect feed X20.4 Z-9.9 pass 3)
X30. Z-20. (expect feed X38.4 Z-17.9 pass 1) (expect feed X34.4 Z-18.9 pass 2) (expect feed X30.4 Z-19.9 pass 3)
N20 X40. (expect feed X48.4 Z-17.9 pass 1) (expect feed X44.4 Z-18.9 pass 2) (expect feed X40.4 Z-19.9 pass 3)
M30
