(Type II: a groove in the face, down to Z-5, level by level)
T0101
G97 S1000 M03
G00 X62. Z1.
G72 W2. R.5
G72 P10 Q20 U0 W0 F.2 (expect rapid X62. Z0. pass 1) (expect feed X31.2 Z-1. pass 1) (expect feed X20. Z1. pass 1) (expect feed X21. Z1.5 pass 1) (expect rapid X49.2 Z1.5 pass 2) (expect rapid X49.2 Z-0.5 pass 2) (expect feed X49.2 Z-1. pass 2) (expect feed X33.6 Z-3. pass 2) (expect feed X32.2 Z-0.5 pass 2) (expect rapid X32.2 Z1. pass 3) (expect rapid X62. Z1. pass 3) (expect rapid X62. Z0. pass 3) (expect rapid X62. Z1. pass 3)
N10 G00 U0 Z0 (expect no move)
G01 X50. (expect feed X50. Z0. pass 1) (expect feed X50. Z0. pass 3)
Z-5. X46. (expect feed X49.2 Z-1. pass 1) (expect feed X47.6 Z-3. pass 2) (expect feed X46. Z-5. pass 3)
X36. (expect feed X36. Z-5. pass 3)
Z0 X30. (expect feed X30. Z0. pass 1) (expect feed X31.2 Z-1. pass 2) (expect feed X30. Z0. pass 3)
N20 X20. (expect feed X20. Z0. pass 1) (expect feed X20. Z0. pass 3)
M30
