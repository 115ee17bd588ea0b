(A fillet of the nose radius itself is cut by standing still)
T0101
G97 S1000 M03
G00 X62. Z2.
G42 G01 X20. F.2
Z-9.2 (expect feed X20 Z-10)
G02 X21.6 Z-10. R.8 (expect no move)
G01 X40. (expect feed X38.4 Z-10)
G40 G00 Z2.
M30
