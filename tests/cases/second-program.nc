O1
T0101
G00 X62. Z2. (expect rapid X62 Z2) (expect finding no-program-end)
O2
G01 X0 Z-500. (another program, not carried out) (expect no move)
M30
