(option compensate-in-roughing)
(The set-up key: passes go up to the compensated profile, 0.2 and 0.1 off)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U3. R1.
G71 P10 Q20 U.4 W.1 F.3
N10 G00 G42 X30.
G01 Z-10. (expect feed X30.4 Z-10.369 pass 2)
X40. Z-15. (expect feed X40.4 Z-15.369 pass 2)
N15 Z-20. (expect feed X40.4 Z-20.7 pass 2)
N20 G40 X42. (only its way in X counts for the passes) (expect feed X42.4 Z-20.7 pass 2)
M30
