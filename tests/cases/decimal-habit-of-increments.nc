(option whole-increments)
(In a program that never writes a point small figures are meant)
T0101
G97 S1000 M03
G00 X62000 Z2000
G01 X60000 F.2
W-100 (expect feed X60 Z1.9)
X-800 (expect feed X-0.8 Z1.9)
M30
