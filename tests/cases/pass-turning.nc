(G90: at rapid to the diameter, at feed along Z, at feed out, at rapid back. TC060, from memory)
T0101
G97 S1000 M03
G00 X62. Z2.
G90 X56. Z-30. F.2 (expect rapid X56 Z2 pass 1) (expect feed X56 Z-30 F0.2 pass 1) (expect feed X62 Z-30 pass 1) (expect rapid X62 Z2 pass 1)
G00 X80. (expect rapid X80 Z2 pass 0)
M30
