(Out of a recess straight home: the nose goes through the wall)
T0101
G97 S1000 M03
G00 X62. Z2.
G42 G01 X50. F.2
Z-10.
X40. Z-11.
Z-20.
G40 G00 X46. Z5. (expect finding compensation-gouge)
M30
