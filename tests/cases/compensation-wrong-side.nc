T0101
G97 S1000 M03
G00 X62. Z2.
G41 G01 X50. F.2 (along a diameter towards the chuck tip 3 wants G42) (expect finding compensation-wrong-side at 1)
Z-30.
G40 X62.
G00 Z5.
G42 G01 Z0 (and facing inwards G41) (expect finding compensation-wrong-side at 1)
X-1.6
G40 G00 Z5.
M30
