(The number of the main program: it calls itself)
O1
T0101
G97 S1000 M03
G00 X62. Z2.
G00 U-2. (expect rapid X60) (expect rapid X60) (expect rapid X60) (expect rapid X60) (expect rapid X60)
M98 P1 (expect finding call-too-deep)
M30
