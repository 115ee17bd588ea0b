O1
T0101
G97 S1000 M03
G00 X62. Z2.
G65 P10 X60.
M30
O10
G00 X#24 (expect rapid X60) (expect rapid X58) (expect rapid X56) (expect rapid X54)
G65 P10 X[#24-2.] (expect finding call-too-deep)
M99
