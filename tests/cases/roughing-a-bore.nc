(From bore 20 to bore 30 and 26: passes at 24 and 28, allowance of a bore below zero)
T0404
G97 S1000 M03
G00 X20. Z2.
G71 U2. R.5
G71 P10 Q20 U-.4 W.1 F.2 (expect rapid X24 Z2 pass 1) (expect feed X24 Z-24.9 pass 1) (expect feed X23 Z-24.4 pass 1) (expect rapid X23 Z2 pass 1) (expect rapid X28 Z2 pass 2) (expect feed X28 Z-9.9 pass 2) (expect feed X27 Z-9.4 pass 2) (expect rapid X27 Z2 pass 2) (expect rapid X29.6 Z2.1 pass 3) (expect rapid X20 Z2 pass 3)
N10 G00 X30.
G01 Z-10. (expect feed X29.6 Z-9.9 pass 3)
X26. (expect feed X25.6 Z-9.9 pass 3)
Z-25. (expect feed X25.6 Z-24.9 pass 3)
N20 X20. (expect feed X19.6 Z-24.9 pass 3)
M30
