(W larger than a pass; W that leads into the part; U that does)
T0101
G97 S1000 M03
G00 X62. Z2.
G72 W1. R.5
G72 P10 Q20 U.4 W1.2 F.2 (expect finding allowance-above-depth)
N10 G00 Z-3.
G01 X20.
N20 Z1.
G72 P30 Q40 U.4 W-.1 F.2 (expect finding allowance-into-part)
N30 G00 Z-3.
G01 X20.
N40 Z1.
G72 P50 Q60 U-.4 W.1 F.2 (expect finding allowance-into-part)
N50 G00 Z-3.
G01 X20.
N60 Z1.
M30
