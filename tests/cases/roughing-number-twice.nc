(Which N10 the control takes differs)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U3. R1.
G71 P10 Q20 U.4 W.1 F.3 (expect finding sequence-number-twice unproven)
N10 G00 X30. (expect no move)
G01 Z-20. (expect feed X30.4 Z-19.9 pass 2)
N20 X42. (expect feed X42.4 Z-19.9 pass 2)
N10 G00 Z5. (expect rapid X42. Z5.)
N30 G00 X50.
N30 X52. (a number that no cycle names may repeat)
M30
