(R: Z at the start of the cut less that at its end)
T0101
G97 S1000 M03
G00 X62. Z2.
G94 X20. Z-1. R-3. F.2 (expect rapid X62 Z-4) (expect feed X20 Z-1) (expect feed X20 Z2) (expect rapid X62 Z2)
Z-2. (expect rapid X62 Z-5) (expect feed X20 Z-2) (expect feed X20 Z2) (expect rapid X62 Z2)
R2. (expect rapid X62 Z0) (expect feed X20 Z-2) (expect feed X20 Z2) (expect rapid X62 Z2)
R5. (expect no move) (expect finding taper-against-depth at 1)
G00 X80.
M30
