(At 28 mm it is 0.006, and a millimetre further out below 0.005)
(tools centre-height)
G21 G40 G99
G97 S500 M03
T0303
G00 X29. Z3.
G01 Z-5. F.1 (expect note edge-off-centre-height oversize_mm 0.0062 within 0.0001)
X34.
G28 U0 W0
M30
