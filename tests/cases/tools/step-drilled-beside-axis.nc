(0.4 mm off)
(tools centre-and-step-drill)
G21 G40 G99
G97 S1200 M03
T0202
G00 X.8 Z3.
G01 Z-30. F.15 (expect finding drill-beside-axis)
G00 Z3.
G28 U0 W0
M30
