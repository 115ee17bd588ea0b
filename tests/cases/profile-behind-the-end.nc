(P and Q are found anywhere; a profile behind M30 is not on the way)
T0101
G97 S1000 M03
G00 X42. Z2.
G70 P10 Q20 (expect rapid X42 Z2)
G00 X60. (expect rapid X60 Z2)
M30 (expect end)
N10 G00 X30. (expect rapid X30 Z2)
G01 Z-20. F.1 (expect feed X30 Z-20 F0.1)
N20 X42. (expect feed X42 Z-20)
