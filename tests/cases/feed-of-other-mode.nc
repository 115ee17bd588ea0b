T0101
G97 S1000 M03
G00 X62. Z2.
G01 Z-5. F.25 (expect feed F0.25)
G98 Z-6. (expect feed F0.25) (expect finding feed-of-other-mode)
Z-7. F200 (expect feed F200)
M30
