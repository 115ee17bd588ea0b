T0101
G97 S1000 M03
G00 X62. Z2.
G42 G01 X58. F.2
Z-10. (expect feed X58 comp right)
T0202 (expect index) (expect finding compensation-left-on at 1)
G00 X62. Z2. (expect rapid X62 Z2 comp off)
G42 G01 X58.
Z-10.
G28 U0 W0 (expect home) (expect finding compensation-left-on at 1)
G00 X62. Z2.
G42 G01 X58.
Z-10.
G53 G00 X0 Z0 (expect rapid) (expect finding compensation-left-on at 1)
G00 X62. Z2.
G41 X58.
M30 (expect end) (expect finding compensation-left-on at 1)
