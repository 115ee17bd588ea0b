(G74 with steps of 2.5 mm, radially, of a blade 3 mm wide)
(tools face-groove)
G21 G40 G99
G97 S500 M03
T0101
G00 X44. Z3.
G74 R.5
G74 X34. Z-5. P2500 Q2000 F.08
G00 Z5.
G28 U0 W0
M30
