(The position stays where it is; figures count anew. F and S keep their meaning here, many controls keep the figure)
T0101
G97 S1000 M03
G00 X62. Z2.
G01 X58. F.2 (expect feed X58 Z2 F0.2)
G20 (expect no move)
Z-1. (expect feed X58 Z-25.4 F0.2) (expect finding feed-of-other-units)
X2.4 F.01 (expect feed X60.96 F0.254)
G21
G01 Z-30. F.2 (expect feed X60.96 Z-30 F0.2)
G20
G21 (to and fro: nothing happened)
X62. (expect feed X62 F0.2)
M30
