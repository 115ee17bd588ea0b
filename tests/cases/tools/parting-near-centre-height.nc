(Half a tenth is not told of)
(tools centre-height)
G21 G40 G99
G97 S500 M03
T0202
G00 X34. Z-10.
G01 X-0.4 F.05
G00 X34.
G28 U0 W0
M30
