(On and off with nothing between)
T0101
G97 S1000 M03
G00 X62. Z2.
G42
G40
G01 X58. F.2 (expect feed X58 Z2 comp off)
Z-10. (expect feed X58 Z-10 comp off)
G42 X62. (switched on by one move and off by the next: square on its own end) (expect feed X60.4 Z-10 comp right)
G40 G00 Z2. (expect rapid X62 Z2 comp off)
M30
