(G94: at rapid along Z, at feed along X, at feed out along Z, at rapid back. TC061, from memory)
T0101
G97 S1000 M03
G00 X62. Z2.
G94 X20. Z-1. F.2 (expect rapid X62 Z-1 pass 1) (expect feed X20 Z-1 F0.2 pass 1) (expect feed X20 Z2 pass 1) (expect rapid X62 Z2 pass 1)
Z-2. (expect rapid X62 Z-2) (expect feed X20 Z-2) (expect feed X20 Z2) (expect rapid X62 Z2)
X10. W-5. (expect rapid X62 Z-3) (expect feed X10 Z-3) (expect feed X10 Z2) (expect rapid X62 Z2)
G00 X80. (expect rapid X80 Z2 pass 0)
M30
