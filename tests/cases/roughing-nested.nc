(No cycle within a profile)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U3. R1.
G71 P10 Q20 U.4 W.1 F.3
N10 G00 X30.
G01 Z-10.
G71 U2. R1. (expect finding not-allowed-in-profile unproven)
G72 P10 Q20 U0 W0 (expect finding not-allowed-in-profile unproven)
G73 P10 Q20 U0 W0 (expect finding not-allowed-in-profile unproven)
G04 P500 (a dwell may stand there)
Z-20.
N20 X42.
M30
