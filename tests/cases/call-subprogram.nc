(M98: once, by L, and by figures in front of the last four of P)
O1
T0101
G97 S1000 M03
G00 X62. Z2.
M98 P1000
G00 Z2.1 (expect rapid X60 Z2.1)
M98 P1000 L2
M98 P31000
M98 P0021000
M30 (expect end)
O1000
G01 U-2. F.2 (expect feed X60) (expect feed X58) (expect feed X56) (expect feed X54) (expect feed X52) (expect feed X50) (expect feed X48) (expect feed X46)
M99
