(15 mm deep; the edge ends 12.1 mm up, at its far corner, and the side behind it 13.8 mm up)
(tools turning)
G21 G40 G99
G97 S500 M03
T0101
G00 X30. Z3.
G01 Z-30. F.2 (expect finding cut-deeper-than-edge over_mm 1.69 within 0.05)
X64.
G28 U0 W0
M30
