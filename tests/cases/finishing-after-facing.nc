(G70 runs the profile of G72 as it stands)
T0101
G97 S1000 M03
G00 X62. Z2.
G72 W3. R.5
G72 P10 Q20 U.4 W.1 F.2
N10 G00 Z-5. (expect rapid X62. Z-5. pass 1)
G01 X20. F.1 (expect feed X20.4 Z-4.9 pass 3) (expect feed X20. Z-5. pass 1)
N20 Z1. (expect feed X20.4 Z1.1 pass 3) (expect feed X20. Z1. pass 1)
G70 P10 Q20 (expect rapid X62. Z2. pass 1)
G00 X80. (expect rapid X80. Z2.)
M30
