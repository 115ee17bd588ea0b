(Fed along X through metal 5 mm deep; it is 3 mm wide)
(tools face-groove)
G21 G40 G99
G97 S500 M03
T0303
G00 X44. Z3.
G01 Z-5. F.08
X38. F.05 (expect finding blade-cuts-sideways depth_mm 5 within 0.05)
G00 Z5.
G28 U0 W0
M30
