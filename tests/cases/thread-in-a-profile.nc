T0101
G97 S800 M03
G00 X42. Z2.
G71 U3. R1.
G71 P10 Q20 U0 W0 F.3
N10 G00 X32.
G32 Z-20. F1. (expect finding not-allowed-in-profile unproven)
N20 G01 X42.
M30
