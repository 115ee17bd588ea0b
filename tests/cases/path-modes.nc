(Exact stop, cutting mode and the plane of turning change nothing here)
G18 G61
T0101
G97 S1000 M03
G00 X62. Z2.
G61 G01 X60. F.2 (expect feed X60)
G64 Z-10. (expect feed Z-10)
G61 G64 (expect finding codes-conflict at 5)
G00 G18 X80. (expect rapid X80)
M30
