(Four subprograms within one another)
O1
T0101
G97 S1000 M03
G00 X62. Z2.
M98 P2
M30 (expect end)
O2
M98 P3
G00 X60. (expect rapid X60)
M99
O3
M98 P4
G00 X58. (expect rapid X58)
M99
O4
M98 P5
G00 X56. (expect rapid X56)
M99
O5
G00 X54. (expect rapid X54)
M99
