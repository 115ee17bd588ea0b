(Some controls keep one depth for G71 and G72)
T0101
G97 S1000 M03
G00 X42. Z2.
G72 W3. R1.
G71 P10 Q20 U.4 W.1 F.3 (expect rapid X36. Z2. pass 1) (expect feed X36. Z-19.9 pass 1) (expect feed X38. Z-18.9 pass 1) (expect rapid X38. Z2. pass 1) (expect rapid X30.4 Z2.1 pass 2) (expect rapid X42. Z2. pass 2) (expect finding depth-of-other-cycle unproven)
N10 G00 X30.
G01 Z-20.
N20 X42.
M30
