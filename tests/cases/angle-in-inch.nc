(Angles are degrees in both systems)
T0101
G97 S1000 M03
G20
G00 X1. Z0
G01 A180. F.008 (expect feed X25.4 Z-12.7)
X2. Z-1. A135. (expect feed X50.8 Z-25.4)
M30
