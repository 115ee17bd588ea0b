T0101
G50 S2500
G96 S180 M03
G00 X62. Z2. (expect state surface-speed 1 speed 180 clamp 2500 spindle 1)
G01 X0 F.2 (expect feed X0)
G97 S1200 M04
G00 X62. (expect state surface-speed 0 speed 1200 spindle -1)
M05
G00 Z5. (expect state spindle 0)
M30
