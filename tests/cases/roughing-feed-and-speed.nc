(F S T of the call count for roughing, F and S of the profile for finishing only)
T0101
G97 S1000 M03
G00 X42. Z2. (expect state speed 1000)
G71 U3. R1.
G71 P10 Q20 U.4 W.1 F.3 S800 T0202 (expect state feed 0.3 speed 800)
N10 G00 X30. S1500
G01 Z-20. F.1 (expect state feed 0.1 speed 1500)
N20 X42. F.15 (expect state feed 0.15 speed 1500)
G00 Z3. (expect state feed 0.3 speed 800)
Z2.
G70 P10 Q20 (expect state feed 0.15 speed 1500)
M30
