T0101
G97 S1000 M03
G00 X62. Z2.
G111 (expect finding unknown-code at 1 unproven)
G01 X58. F.2 G62 (expect feed X58) (expect finding unknown-code at 14 unproven)
G176 P010060 Q100 R0.05 (expect no move) (expect finding unknown-code at 1 unproven)
G176 X48. Z-30. P920 Q300 F1.5 (expect no move) (expect finding unknown-code at 1 unproven)
G00 X62. Z2. (expect rapid X62 Z2)
M77 (expect finding unknown-code at 1 unproven)
M30
