(A program that calls itself)
O1
T0101
G97 S1000 M03
G00 X62. Z2.
M98 P2
M30 (expect no move)
O2
G00 U-2. (expect rapid X60) (expect rapid X58) (expect rapid X56) (expect rapid X54)
M98 P2 (expect finding call-too-deep)
M99
