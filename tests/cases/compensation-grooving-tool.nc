(The corner of a grooving edge is compensated; it turns the floor and the wall on its own side)
T0606
G97 S1000 M03
G00 X62. Z-10.
G42 G01 X50. F.1 (expect feed X50 Z-10.2 comp right)
Z-20. (expect feed X50 Z-20)
X60. (expect feed X59.6 Z-20)
G40 G00 X64. Z-18.
M30
