(At 16 mm it is 0.0112: a note)
(tools centre-height)
G21 G40 G99
G97 S500 M03
T0303
G00 X16. Z3.
G01 Z-5. F.1 (expect note edge-off-centre-height oversize_mm 0.0112 within 0.0001)
X34.
G28 U0 W0
M30
