(Figures of call and profile from variables)
T0101
G97 S1000 M03
#1=30.
#2=3.
G00 X42. Z2.
G71 U#2 R1.
G71 P10 Q20 U.4 W.1 F.3 (expect rapid X36. Z2. pass 1) (expect feed X36. Z-19.9 pass 1) (expect feed X38. Z-18.9 pass 1) (expect rapid X38. Z2. pass 1) (expect rapid X30.4 Z2.1 pass 2) (expect rapid X42. Z2. pass 2)
N10 G00 X#1 (expect no move)
G01 Z-20. (expect feed X30.4 Z-19.9 pass 2)
N20 X[#1+12.] (expect feed X42.4 Z-19.9 pass 2)
M30
