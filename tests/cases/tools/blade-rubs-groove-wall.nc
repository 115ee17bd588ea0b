(15 mm under the edge at 10 degrees clear walls from 2 x 15 / sin 20 = 87.7)
(tools face-groove)
G21 G40 G99
G97 S500 M03
T0202
G00 X44. Z3.
G01 Z-5. F.08 (expect finding blade-rubs-groove-wall)
G00 Z5.
G28 U0 W0
M30
