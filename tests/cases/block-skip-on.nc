(option block-skip 1 2)
T0101
G97 S1000 M03
G00 X62. Z2.
/ G01 X58. F.2 (expect no move)
/2 G01 X56. F.2 (expect no move)
G01 Z-5. F.3 (expect feed X62 Z-5 F0.3)
M30
