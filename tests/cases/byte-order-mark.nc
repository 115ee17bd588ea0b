T0101 (expect index)
G00 X62. Z2. (expect rapid X62 Z2)
M30
