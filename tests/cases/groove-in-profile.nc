(Cycles do not nest)
T0101
G97 S1000 M03
G00 X62. Z2.
G71 P10 Q20 U.4 W.1 D4. F.2
N10 G00 X56.
G01 Z-30.
G75 X50. P2000 (expect finding not-allowed-in-profile at 1 unproven)
N20 G01 X60.
G00 X80.
M30
