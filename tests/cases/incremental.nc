(U and W are steps, U on diameter: row TC057)
T0101
G97 S1000 M03
G00 X40. Z2. (expect rapid X40 Z2)
G01 U20. W-30. F.2 (expect feed X60 Z-28)
U-2. (expect feed X58 Z-28)
W-1. X50. (expect feed X50 Z-29)
G00 U2. Z2. (expect rapid X52 Z2)
M30
