T0101
G97 S1000 M03
G00 X62. Z2.
M98 P1000 L3 (expect finding unknown-code at 1 unproven)
G01 X60. F.2 (the rest is carried out) (expect feed X60)
M30
