(A step smaller than the nose, outside corner behind it: there is room)
T0101
G97 S1000 M03
G00 X62. Z2.
G42 G01 X20. F.2
Z-10. (expect feed X20 Z-10)
X20.4 (expect feed X20.4 Z-10)
Z-20. (expect feed X20.4 Z-20.8)
G40 G00 X62.
M30
