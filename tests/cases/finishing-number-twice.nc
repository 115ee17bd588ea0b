T0101
G97 S1000 M03
G00 X42. Z2.
G70 P10 Q20 F.3 (expect finding sequence-number-twice unproven)
N10 G00 X30.
G01 Z-20.
N20 X42.
N20 G00 X50.
M30
