(D is the depth of cut; two U words are depth and allowance; R stays for the next cycle)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 P10 Q20 U.4 W.1 D3. R1. F.3 (expect rapid X36 Z2) (expect feed X36 Z-19.9) (expect feed X38 Z-18.9) (expect rapid X38 Z2) (expect rapid X30.4 Z2.1) (expect rapid X42 Z2)
N10 G00 X30.
G01 Z-20.
N20 X42.
G71 U3. P30 Q40 U.4 W.1 (expect rapid X36 Z2) (expect feed X36 Z-19.9) (expect feed X38 Z-18.9) (expect rapid X38 Z2) (expect rapid X30.4 Z2.1) (expect rapid X42 Z2)
N30 G00 X30.
G01 Z-20.
N40 X42.
G71 P50 Q60 U.4 W.1 D3000 (expect finding depth-without-point at 21) (expect rapid X36 Z2) (expect feed X36 Z-19.9) (expect feed X38 Z-18.9) (expect rapid X38 Z2) (expect rapid X30.4 Z2.1) (expect rapid X42 Z2)
N50 G00 X30.
G01 Z-20.
N60 X42.
M30
