(A fillet of 0.4 under a nose of 0.8: 0.4 too large, and 0.4 * 0.41421 = 0.166 stay in the corner)
T0101
G97 S1000 M03
G00 X62. Z2.
G42 G01 X20. F.2
Z-9.6 (expect feed X20 Z-10)
G02 X20.8 Z-10. R.4 (expect finding compensation-arc-too-small)
G01 X40. (expect feed X38.4 Z-10)
G40 G00 Z2.
M30
