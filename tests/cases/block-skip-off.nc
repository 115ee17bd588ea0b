T0101
G97 S1000 M03
G00 X62. Z2.
/ G01 X58. F.2 (expect feed X58 Z2)
/2 G01 X56. (expect feed X56 Z2)
N60 / Z-5. (expect feed X56 Z-5)
M30
