(1 mm on the diameter, made for 0.3)
(tools reamer)
G21 G40 G99
G97 S1000 M03
T0202
G00 X0 Z3.
G01 Z-30. F.15
G00 Z3.
G28 U0 W0
G97 S300 M03
T0404
G00 X0 Z3.
G01 Z-25. F.3 (expect finding reamer-takes-too-much takes_mm 1 within 0.001)
G00 Z3.
G28 U0 W0
M30
