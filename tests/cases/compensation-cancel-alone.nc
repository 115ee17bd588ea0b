(G40 alone moves nothing: the next move leads off, as most controls have it)
T0101
G97 S1000 M03
G00 X62. Z2.
G42 G01 X58. F.2
Z-10. (expect feed X58 Z-10.8)
G40 (expect no move)
M09
G00 X62. (expect rapid X62 Z-10 comp off)
M30
