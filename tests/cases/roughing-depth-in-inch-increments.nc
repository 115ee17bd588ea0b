(D1181 without a point under G20 is 0.1181 inch, 3 mm)
G20 T0101
G97 S1000 M03
G00 X2. Z.1
G71 P10 Q20 U0 W0 D1181 R0 F.01 (expect rapid X44.80 Z2.54) (expect feed X44.80 Z-25.4) (expect rapid X44.80 Z2.54) (expect rapid X40.64 Z2.54) (expect rapid X50.8 Z2.54) (expect finding depth-without-point)
N10 G00 X1.6
G01 Z-1.
N20 X2.
M30
