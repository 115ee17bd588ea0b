(A bar for bores from 22 in one of 20.4)
(tools boring)
G21 G40 G99
G97 S1000 M03
T0101
G00 X0 Z3.
G01 Z-30. F.15
G00 Z3.
G28 U0 W0
G97 S800 M03
T0303
G00 X20.4 Z3.
G01 Z-20. F.1 (expect finding bore-too-small-for-bar bore_mm 20.4 within 0.001)
X19.
G00 Z3.
G28 U0 W0
M30
