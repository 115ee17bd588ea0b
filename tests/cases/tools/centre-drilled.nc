(To a cone of about 6 mm)
(tools centre-and-step-drill)
G21 G40 G99
G97 S1200 M03
T0101
G00 X0 Z3.
G01 Z-6.5 F.08
G00 Z3.
G28 U0 W0
M30
