(Roughed with one tool, finished with another from the same start)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U3. R1.
G71 P10 Q20 U.4 W.1 F.3
N10 G00 G42 X30. (expect rapid X30. Z1.6 pass 1)
G01 Z-20. F.1 (expect feed X30.4 Z-19.9 pass 2) (expect feed X30. Z-20.4 pass 1)
N20 G40 X42. (expect feed X42.4 Z-19.9 pass 2) (expect feed X42. Z-20. pass 1)
G00 X80. Z50.
T0202
G00 X42. Z2.
G70 P10 Q20 (expect rapid X42. Z2. pass 1)
M30
