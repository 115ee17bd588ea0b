T0101
G96 S180 M03 (expect finding no-speed-clamp at 1)
G00 X62. Z2.
G01 X0 F.2 (expect feed X0)
X10. (once per G96)
G97 S1000
G96 S150 (expect finding no-speed-clamp at 1)
G01 X0
G50 S2000
G96 S150
G01 X10. (expect state clamp 2000)
G50 S4500 (as fast as the machine may)
G97 S1000
G96 S150
G01 X0
G50 S9000
G97 S1000
G96 S150 (expect finding no-speed-clamp at 1)
G01 X10.
M30
