(option system-b)
(G92 sets coordinates, under G91 by how much)
T0101
G97 S1000 M03
G90 G00 X62. Z2.
G92 X60. Z0 (expect no move)
G00 X58. (expect rapid X58 Z0)
G91 G92 X2. Z3. (expect no move) (expect finding coordinate-shift-left-on at 5)
G90 G00 X58. (expect rapid X58 Z3)
M30
