(Back along the same way with the other side: the nose stays where it is. Common practice, no source)
T0101
G97 S1000 M03
G00 X62. Z2.
G42 G01 X58. F.2
Z-10. (expect feed X58 Z-10.8 comp right)
G41 Z0 (expect feed X58 Z-0.8 comp left)
G40 G00 X62. Z2. (expect rapid X62 Z2 comp off)
M30
