T0101
G97 S1000 M03
G50 S2000
G96 S120
G00 X62. Z2.
G01 X58. F.2 (expect feed X58 F0.2)
G20 F.008
G01 Z-1. (expect feed Z-25.4 F0.203) (expect finding speed-of-other-units)
S400
Z-1.1 (expect feed Z-27.94) (expect state surface-speed 1 speed 121.92)
M30
