(Passes along X, 2 deep in Z: G71 with the axes exchanged)
T0101
G97 S1000 M03
G00 X62. Z2.
G72 W2. R.5 (expect no move)
G72 P10 Q20 U.4 W.1 F.2 (expect rapid X62. Z0. pass 1) (expect feed X20.4 Z0. pass 1) (expect feed X21.4 Z0.5 pass 1) (expect rapid X62. Z0.5 pass 1) (expect rapid X62. Z-2. pass 2) (expect feed X40.4 Z-2. pass 2) (expect feed X41.4 Z-1.5 pass 2) (expect rapid X62. Z-1.5 pass 2) (expect rapid X62. Z-4. pass 3) (expect feed X40.4 Z-4. pass 3) (expect feed X41.4 Z-3.5 pass 3) (expect rapid X62. Z-3.5 pass 3) (expect rapid X62.4 Z-4.9 pass 4) (expect rapid X62. Z2. pass 4)
N10 G00 Z-5. (expect no move)
G01 X40. F.1 (expect feed X40.4 Z-4.9 pass 4)
Z-2. (expect feed X40.4 Z-1.9 pass 4)
X20. (expect feed X20.4 Z-1.9 pass 4)
N20 Z0 (expect feed X20.4 Z0.1 pass 4)
M30
