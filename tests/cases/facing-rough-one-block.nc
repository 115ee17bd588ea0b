(D is the depth in Z)
T0101
G97 S1000 M03
G00 X62. Z2.
G72 P10 Q20 U.4 W.1 D3. R.5 F.2 (expect rapid X62. Z-1. pass 1) (expect feed X20.4 Z-1. pass 1) (expect feed X21.4 Z-0.5 pass 1) (expect rapid X62. Z-0.5 pass 1) (expect rapid X62. Z-4. pass 2) (expect feed X20.4 Z-4. pass 2) (expect feed X21.4 Z-3.5 pass 2) (expect rapid X62. Z-3.5 pass 2) (expect rapid X62.4 Z-4.9 pass 3) (expect rapid X62. Z2. pass 3)
N10 G00 Z-5. (expect no move)
G01 X20. (expect feed X20.4 Z-4.9 pass 3)
N20 Z1. (expect feed X20.4 Z1.1 pass 3)
M30
