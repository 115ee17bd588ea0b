(R of half the chord exactly, in figures that round badly)
T0101
G97 S1000 M03
G00 X20.2 Z0
G03 X20.2 Z-6.6 R3.3 F.1 (expect arc-ccw X20.2 Z-6.6 I0 K-3.3)
G02 X20.2 Z0 R3.2999 (expect arc-cw X20.2 Z0 I0 K3.3)
M30
