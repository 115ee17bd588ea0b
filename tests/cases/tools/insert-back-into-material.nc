(Let into a groove and fed away from the chuck)
(tools turning)
G21 G40 G99
G97 S500 M03
T0303
G00 X64. Z-30.
G01 X50. F.08
G00 X64.
Z-37.
G01 X50.
G00 X64.
Z-44.
G01 X50.
G00 X64.
G28 U0 W0
T0101
G00 X64. Z-40.
X51.
G01 Z-30. F.1 (expect finding insert-back-into-material)
X64.
G28 U0 W0
M30
