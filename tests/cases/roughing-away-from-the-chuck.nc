(The mirror image along Z: the profile runs to plus, so W is below zero)
T0101
G97 S1000 M03
G00 X42. Z-22.
G71 U3. R1.
G71 P10 Q20 U.4 W-.1 F.3 (expect rapid X36 Z-22) (expect feed X36 Z-0.1) (expect feed X38 Z-1.1) (expect rapid X38 Z-22) (expect rapid X30.4 Z-22.1) (expect rapid X42 Z-22)
N10 G00 X30.
G01 Z0 (expect feed X30.4 Z-0.1)
N20 X42. (expect feed X42.4 Z-0.1)
M30
