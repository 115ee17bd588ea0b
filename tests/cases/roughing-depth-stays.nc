(Depth and retract hold for the calls that follow)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U3. R1.
G71 P10 Q20 U.4 W.1 F.3
N10 G00 X30.
G01 Z-20.
N20 X42.
G71 P30 Q40 U0 W0 (expect rapid X36. Z2. pass 1) (expect feed X36. Z-10. pass 1) (expect feed X38. Z-9. pass 1) (expect rapid X38. Z2. pass 1) (expect rapid X33. Z2. pass 2) (expect rapid X42. Z2. pass 2)
N30 G00 X33.
G01 Z-10.
N40 X42.
M30
