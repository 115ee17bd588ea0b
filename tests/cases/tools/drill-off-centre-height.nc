(A tenth beside the axis)
(tools centre-height)
G21 G40 G99
G97 S500 M03
T0404
G00 X0 Z3.
G01 Z-20. F.1 (expect finding drill-off-centre-height oversize_mm 0.2 within 0.001)
G00 Z3.
G28 U0 W0
M30
