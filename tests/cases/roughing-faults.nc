T0101
G97 S1000 M03
G00 X42. Z2.
G71 P10 Q20 U.4 W.1 F.3 (expect no move) (expect finding missing-depth-of-cut at 1)
N10 G00 X30.
G01 Z-20.
N20 X42.
G00 X42. Z2.
G71 P30 Q40 U-.4 W.1 D3. (expect finding allowance-into-part at 1)
N30 G00 X30.
G01 Z-20.
N40 X42.
G00 X38. Z2.
G71 P50 Q60 U.4 W.1 D3. (expect finding cycle-start-inside-profile at 1)
N50 G00 X30.
G01 Z-20.
N60 X42.
G00 X42. Z2.
G71 P70 Q80 U.4 W.1 D.00001 (expect no move) (expect finding too-many-passes at 1)
N70 G00 X30.
G01 Z-20.
N80 X42.
M30
