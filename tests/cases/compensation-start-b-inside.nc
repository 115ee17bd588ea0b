(option compensation-start-b)
(At an inside corner B is A)
T0101
G97 S1000 M03
G00 X62. Z2.
G42 X20. (expect rapid X20 Z1.2)
G01 Z-10. F.2 (expect feed X20 Z-10.8)
G40 X62. (expect feed X62 Z-10)
M30
