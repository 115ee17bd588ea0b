(A move in the block of the call is made before it)
O1
T0101
G97 S1000 M03
G00 X62. Z2.
G00 X50. M98 P2 (expect rapid X50 Z2)
M30
O2
G01 Z-5. F.2 (expect feed X50 Z-5)
M99
