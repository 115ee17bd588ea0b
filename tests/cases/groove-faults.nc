T0606
G97 S600 M03
G00 X62. Z-20.
G75 X58. P9000 (expect finding missing-feed) (expect feed X58) (expect rapid X62)
G75 X58. Z-25. P9000 F.1 (expect no move) (expect finding missing-peck at 1)
G75 Z-25. P9000 Q2000 (expect no move) (expect finding cycle-cuts-nothing at 1)
G75 X58. P9000 ,C1. (expect finding corner-in-cycle at 16) (expect feed X58) (expect rapid X62)
G75 X58. P9000 L2 (expect finding unknown-word at 16 unproven) (expect feed X58) (expect rapid X62)
G01 G75 X58. P9000 (expect feed X58) (expect rapid X62)
X60. (expect feed X60)
G00 X80.
M30
