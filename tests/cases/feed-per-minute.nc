T0101
G97 S1000 M03
G00 X62. Z2.
G98 G01 Z-5. F300 (expect feed Z-5 F300) (expect state feed-per-rev 0 feed 300)
G99 X64. F.2 (expect feed X64 F0.2) (expect state feed-per-rev 1 feed 0.2)
M30
