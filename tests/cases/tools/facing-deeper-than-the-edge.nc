(The face is 15 mm deep along Z, the edge behind the nose 12.9 mm long; the metal ends before the far side of the insert does)
(tools turning)
G21 G40 G99
G97 S500 M03
T0101
G00 X64. Z-15.
G01 X50. F.2 (expect finding cut-deeper-than-edge over_mm 1.01 within 0.05)
G00 X64.
G28 U0 W0
M30
