(Facing towards the centre with tip 3 wants G41; past the axis by the nose)
T0101
G97 S1000 M03
G00 X64. Z5.
G41 G01 Z0 F.2 (expect feed X62.4 Z0 comp left)
X-1.6 (expect feed X-3.2 Z0)
G40 G00 Z5. (expect rapid X-1.6 Z5)
M30
