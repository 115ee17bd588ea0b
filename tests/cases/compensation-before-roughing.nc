T0101
G97 S1000 M03
G00 X50. Z2.
G42 X42.
G71 U3. R1.
G71 P10 Q20 U.4 W.1 F.3 (expect finding compensation-in-roughing at 1 unproven) (expect rapid X36 Z2) (expect feed X36 Z-19.9) (expect feed X38 Z-18.9) (expect rapid X38 Z2) (expect rapid X30.4 Z2.1) (expect rapid X42 Z2)
N10 G00 X30.
G01 Z-20.
N20 X42.
M30
