(G04 is the same everywhere; X stays seconds with G98 and G99 of code system A or G94 and G95 of the others)
(option system-b)
T0101
G97 G95 S1000 M03
G00 X62. Z2.
G04 X1.5 (expect dwell X62 Z2 S1.5)
G94 G04 P250 (expect dwell S0.25)
G95 G04 U.5 (expect dwell S0.5)
G04 X-1. (expect no move) (expect finding not-above-zero at 5)
G04 X1. P500 (expect dwell S0.5)
G00 X80.
M30
