(G42 in front of G70 and G40 behind it: the way back is not known)
T0101
G97 S1000 M03
G00 X62. Z2.
G42 X42.
G70 P10 Q20 (expect finding compensation-on-the-way-back at 1 unproven) (expect rapid X42 Z2 comp off)
N10 G00 X30. (compensated before, so down to where the next move is met) (expect rapid X30 Z0.4 comp right)
G01 Z-20. F.1 (expect feed X30 Z-20)
N20 X42. (expect feed X40.4 Z-20)
G40 G00 X62. (expect rapid X62 Z2 comp off)
M30
