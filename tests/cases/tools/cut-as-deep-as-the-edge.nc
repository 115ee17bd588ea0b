(The same with an edge of 19.344 mm)
(tools turning)
G21 G40 G99
G97 S500 M03
T0202
G00 X30. Z3.
G01 Z-30. F.2
X64.
G28 U0 W0
M30
