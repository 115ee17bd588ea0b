(The far face of a flange: the mirror image along Z, W is below zero)
T0101
G97 S1000 M03
G00 X62. Z-42.
G72 W2. R.5
G72 P10 Q20 U.4 W-.1 F.2 (expect rapid X62. Z-40. pass 1) (expect feed X40.4 Z-40. pass 1) (expect feed X41.4 Z-40.5 pass 1) (expect rapid X62. Z-40.5 pass 1) (expect rapid X62. Z-38. pass 2) (expect feed X40.4 Z-38. pass 2) (expect feed X41.4 Z-38.5 pass 2) (expect rapid X62. Z-38.5 pass 2) (expect rapid X62. Z-36. pass 3) (expect feed X40.4 Z-36. pass 3) (expect feed X41.4 Z-36.5 pass 3) (expect rapid X62. Z-36.5 pass 3) (expect rapid X62.4 Z-35.1 pass 4) (expect rapid X62. Z-42. pass 4)
N10 G00 Z-35. (expect no move)
G01 X40. (expect feed X40.4 Z-35.1 pass 4)
N20 Z-41. (expect feed X40.4 Z-41.1 pass 4)
M30
