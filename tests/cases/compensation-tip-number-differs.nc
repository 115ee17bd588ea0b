(Offset 13 has tip 2 entered for a tool that stands as tip 3: shifted by 1.6 on radius)
T0113
G97 S1000 M03
G00 X62. Z2.
G42 G01 X58. F.2 (expect finding tip-number-differs at 1) (expect feed X61.2 Z1.2)
Z-10. (expect feed X61.2 Z-10.8)
G40 X62. (expect feed X62 Z-10)
M30
