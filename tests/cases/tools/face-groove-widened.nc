(A first cut of 50, widened inwards to 34 outside and outwards to 66)
(tools face-groove)
G21 G40 G99
G97 S500 M03
T0101
G00 X44. Z3.
G01 Z-5. F.08
G00 Z1.
X39.
G01 Z-5. F.08
G00 Z1.
X34.
G01 Z-5. F.08
G00 Z1.
X29.
G01 Z-5. F.08
G00 Z1.
X49.
G01 Z-5. F.08
G00 Z1.
X54.
G01 Z-5. F.08
G00 Z1.
X60.
G01 Z-5. F.08
G00 Z5.
G28 U0 W0
M30
