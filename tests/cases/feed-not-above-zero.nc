T0101
G97 S1000 M03
G00 X62. Z2.
G01 Z-5. F0 (expect finding not-above-zero at 10) (expect finding missing-feed)
Z-6. F.2 (expect feed F0.2)
Z-7. F-.3 (expect feed F0.2) (expect finding not-above-zero at 6)
M30
