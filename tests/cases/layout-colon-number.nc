(A colon before the number, as in old tapes)
:1
T0101
G97 S1000 M03
G00 X62. Z2.
M98 P2
M30
:2
G00 X50. (expect rapid X50)
M99
