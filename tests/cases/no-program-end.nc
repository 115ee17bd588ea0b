T0101
G97 S1000 M03
G00 X62. Z2.
G01 X60. F.2 (expect feed X60) (expect finding no-program-end)
