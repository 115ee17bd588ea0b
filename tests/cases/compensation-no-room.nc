(An inside chamfer that the nose does not get into)
T0101
G97 S1000 M03
G00 X62. Z2.
G42 G01 X20. F.2
Z-9.7 (expect feed X20 Z-10)
X20.6 Z-10. (expect finding compensation-no-room)
X40. (expect feed X38.4 Z-10)
G40 G00 Z2.
M30
