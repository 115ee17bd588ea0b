T0101
G97 S1000 M03
G00 X62. Z2.
(Axis words beside a code that is not understood are not moved, nor those that follow, until a motion code comes)
G111 X58. Z-20. F.2 (expect no move) (expect finding unknown-code at 1 unproven)
X56. (expect no move)
X54. (expect no move)
G00 X62. Z3. (expect rapid X62 Z3)
G71.5 P2 (expect finding unknown-code at 1 unproven)
G01 Z1. (expect feed Z1 F0.2)
M30
