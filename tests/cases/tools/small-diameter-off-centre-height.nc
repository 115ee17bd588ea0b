(0.3 mm above at 4 mm: 2 (sqrt(2² + 0.3²) - 2) = 0.0447)
(tools centre-height)
G21 G40 G99
G97 S500 M03
T0303
G00 X10. Z3.
G01 Z-10. F.1
X34.
G00 Z3.
X4.
G01 Z-3. F.1 (expect finding edge-off-centre-height oversize_mm 0.0447 within 0.0001)
X34.
G28 U0 W0
M30
