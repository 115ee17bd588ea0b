(No hole)
(tools reamer)
G21 G40 G99
G97 S300 M03
T0404
G00 X0 Z3.
G01 Z-25. F.3 (expect finding reamer-into-solid hole_mm 0 within 0.001)
G00 Z3.
G28 U0 W0
M30
