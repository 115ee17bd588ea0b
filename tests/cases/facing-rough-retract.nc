(R of an earlier cycle stays; R0 goes back along the face)
T0101
G97 S1000 M03
G00 X62. Z2.
G71 U3. R1.
G72 W3.
G72 P10 Q20 U0 W0 F.2 (expect rapid X62. Z-1. pass 1) (expect feed X40. Z-1. pass 1) (expect feed X42. Z0. pass 1) (expect rapid X62. Z0. pass 1) (expect rapid X62. Z-2. pass 2) (expect rapid X62. Z2. pass 2)
N10 G00 Z-2.
G01 X40.
N20 Z1.
G72 W3. R0
G72 P30 Q40 U0 W0 F.2 (expect rapid X62. Z-1. pass 1) (expect feed X40. Z-1. pass 1) (expect rapid X62. Z-1. pass 1) (expect rapid X62. Z-2. pass 2) (expect rapid X62. Z2. pass 2)
N30 G00 Z-2.
G01 X40.
N40 Z1.
M30
