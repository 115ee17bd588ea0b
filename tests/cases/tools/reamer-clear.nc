(A hole 0.2 mm below the reamer, deeper than it goes)
(tools reamer)
G21 G40 G99
G97 S1000 M03
T0101
G00 X0 Z3.
G01 Z-30. F.15
G00 Z3.
G28 U0 W0
G97 S300 M03
T0404
G00 X0 Z3.
G01 Z-25. F.3
G00 Z3.
G28 U0 W0
M30
