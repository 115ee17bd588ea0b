(13 mm deep: pilot, cone and a stretch of the body are 12.1)
(tools centre-and-step-drill)
G21 G40 G99
G97 S1200 M03
T0101
G00 X0 Z3.
G01 Z-13. F.08 (expect finding drill-deeper-than-flutes)
G00 Z3.
G28 U0 W0
M30
