(5 mm clear them from 29.2)
(tools face-groove)
G21 G40 G99
G97 S500 M03
T0303
G00 X44. Z3.
G01 Z-5. F.08
G00 Z5.
G28 U0 W0
M30
