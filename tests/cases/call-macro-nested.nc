(Each level has variables of its own)
O1
T0101
G97 S1000 M03
G00 X62. Z2.
G65 P10 X50.
M30
O10
G65 P20 X[#24-10.]
G00 X#24 (expect rapid X50)
M99
O20
G00 X#24 (expect rapid X40)
M99
