(Straight on with the other side: across at the shared point. The nose is then on the side of the part)
T0101
G97 S1000 M03
G00 X62. Z2.
G42 G01 X58. F.2
Z-10. (expect feed X58 Z-10.8 comp right) (expect feed X54.8 Z-10.8 comp right)
G41 Z-20. (expect feed X54.8 Z-20.8 comp left) (expect finding compensation-wrong-side)
G40 G00 X62. (expect rapid X62 Z-20 comp off)
M30
