(The milling habit of G90 for absolute programming)
G21 G90 (expect finding cycle-without-axes at 5) (expect no move)
T0101 (expect finding cycle-left-on at 1)
G97 S1000 M03
G00 X62. Z2. (expect rapid X62 Z2)
G90 (expect finding cycle-without-axes at 1) (expect no move)
X56. Z-30. F.2 (expect rapid X56 Z2) (expect feed X56 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
G00 X80.
M30
