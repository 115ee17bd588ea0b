T0101
G97 S1000 M03
G00 X62. Z2.
G42 G01 X58. F.2
Z-10. (expect feed comp right)
G41 X62. (expect feed comp left) (expect finding compensation-side-changed at 1 unproven)
G40 G00 Z2. (expect rapid X62 Z2 comp off)
M30
