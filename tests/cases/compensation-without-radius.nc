T0303
G97 S1000 M03
G00 X62. Z2.
G42 G01 X58. F.2 (expect feed X58 Z2 comp right) (expect finding compensation-without-radius at 1)
Z-10. (expect feed X58 Z-10 comp right)
G40 X62. (expect feed X62 Z-10 comp off)
M30
