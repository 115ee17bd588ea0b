(G42 inside the profile: passes ignore it, the finish cut uses it)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U3. R1.
G71 P10 Q20 U.4 W.1 F.3 (expect rapid X36 Z2) (expect feed X36 Z-19.9) (expect feed X38 Z-18.9) (expect rapid X38 Z2) (expect rapid X30.4 Z2.1) (expect rapid X42 Z2)
N10 G00 G42 X30. (expect rapid X30 Z1.2 pass 1 comp right)
G01 Z-20. F.1 (expect feed X30.4 Z-19.9 pass 2 comp off) (expect feed X30 Z-20 F0.1 pass 1 comp right)
N15 X40. (expect feed X40.4 Z-19.9 pass 2) (expect feed X38.4 Z-20 pass 1)
N20 G40 X42. (expect feed X42.4 Z-19.9 pass 2) (expect feed X42 Z-20 pass 1 comp off)
G70 P10 Q20 (expect rapid X42 Z2)
M30
