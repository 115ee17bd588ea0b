(A groove of 1.2 for a nose of 0.8: the floor is not reached)
T0101
G97 S1000 M03
G00 X62. Z2.
G42 G01 X50. F.2
Z-10.
X44.
Z-11.2 (expect finding compensation-no-room at 1) (expect finding compensation-gouge at 1)
X50.
Z-20.
G40 G00 X62.
M30
