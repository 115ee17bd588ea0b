T0101
G97 S1000 M03
G00 X62. Z2.
G01 X58. Y2. F.2 (expect feed X58) (expect finding unknown-word at 10 unproven)
G00 X60. P5 (expect rapid X60) (expect finding unknown-word at 10 unproven)
G01 X56. ,K30. (expect feed X56) (expect finding unknown-word at 10 unproven)
G01 Z-2. R3. (expect feed Z-2) (expect finding unknown-word at 10 unproven)
M30
