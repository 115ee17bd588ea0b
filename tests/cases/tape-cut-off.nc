% (expect finding percent-not-closed)
O0013
T0101
G00 X62. Z2. (expect rapid X62 Z2)
M30
