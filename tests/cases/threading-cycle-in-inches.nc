(Least increments are tenths of a thousandth: P240 is 0.024 inch)
G20 T1010
G97 S800 M03
G00 X1.1 Z.2
G76 P010000 Q20 R0
G76 X.9 Z-.8 P240 Q240 F.05 (expect rapid X22.86 Z5.08) (expect thread X22.86 Z-20.32 F1.27) (expect rapid X27.94 Z-20.32) (expect rapid X27.94 Z5.08) (expect rapid X22.86 Z5.08) (expect thread X22.86 Z-20.32) (expect rapid X27.94 Z-20.32) (expect rapid X27.94 Z5.08)
M30
