(Under G20 the S of G96 counts feet per minute: 656.168 ft/min are 200 m/min)
G20 T0101
G50 S2000
G96 S656.168 M03
G00 X2.5 Z.1 (expect state surface-speed 1 speed 200 clamp 2000)
M30
