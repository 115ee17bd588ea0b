(G01 in the first block: fed to each pass)
T0101
G97 S1000 M03
G00 X62. Z2.
G72 W3. R.5
G72 P10 Q20 U0 W0 F.2 (expect feed X62. Z-1. pass 1) (expect feed X40. Z-1. pass 1) (expect feed X41. Z-0.5 pass 1) (expect rapid X62. Z-0.5 pass 1) (expect feed X62. Z-2. pass 2) (expect rapid X62. Z2. pass 2)
N10 G01 Z-2. (expect no move)
X40. (expect feed X40. Z-2. pass 2)
N20 Z1. (expect feed X40. Z1. pass 2)
M30
