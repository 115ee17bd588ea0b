(Rapid moves cut nothing and tell no side)
T0101
G97 S1000 M03
G00 X62. Z2.
G41 X58. (expect rapid X54.8 Z1.2 comp left)
Z-10.
G40 X62.
M30
