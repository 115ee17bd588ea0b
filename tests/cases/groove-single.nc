(G75 without Z and Q: one groove. TC066, from memory)
T0606
G97 S600 M03
G00 X62. Z-20.
G75 R.5
G75 X50. P2500 F.08 (expect feed X57 Z-20 F0.08 pass 1) (expect rapid X58 pass 1) (expect feed X52 pass 2) (expect rapid X53) (expect feed X50 pass 3) (expect rapid X62 Z-20)
G00 X80. (expect rapid X80 Z-20 pass 0)
M30
