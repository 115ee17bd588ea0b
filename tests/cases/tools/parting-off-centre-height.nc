(0.2 mm below: a pip of 0.4)
(tools centre-height)
G21 G40 G99
G97 S500 M03
T0101
G00 X34. Z-10.
G01 X-0.4 F.05 (expect finding edge-off-centre-height pip_mm 0.4 within 0.001)
G00 X34.
G28 U0 W0
M30
