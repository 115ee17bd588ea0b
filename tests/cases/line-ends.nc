T0101
G97 S1000 M03
G00 X62. Z2.
G01 X60. F.2 (expect feed X60 Z2)

Z-5. (expect feed X60 Z-5)X62. (expect feed X62 Z-5)M30
