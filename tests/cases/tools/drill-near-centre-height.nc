(Two hundredths are not told of)
(tools centre-height)
G21 G40 G99
G97 S500 M03
T0505
G00 X0 Z3.
G01 Z-20. F.1
G00 Z3.
G28 U0 W0
M30
