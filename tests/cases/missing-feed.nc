T0101
G97 S1000 M03
G00 X62. Z2.
G01 Z-5. (expect feed Z-5 F0) (expect finding missing-feed)
X64. (said once) (expect feed X64)
F.2 (expect no move)
Z-8. (expect feed Z-8 F0.2)
M30
