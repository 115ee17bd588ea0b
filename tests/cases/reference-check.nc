(G27 must end at the reference position, X240 Z210 for this tool)
T0101
G97 S1000 M03
G00 X62. Z2.
G27 X240. Z210. (expect rapid X240 Z210)
G00 X62. Z2.
G27 X240. (expect rapid X240 Z2)
G27 Z200. (expect rapid X240 Z200) (expect finding not-at-reference at 1)
M30
