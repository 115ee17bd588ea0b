(The wall on the far side of a blade of 3 with corners of 0.2: the other end of the edge would stand 2.6 in it)
T0606
G97 S1000 M03
G00 X62. Z-10.
G42 G01 Z-12. F.1
X50. (expect finding compensation-other-corner at 1)
Z-20.
X60.
G40 G00 X64. Z-18.
M30
