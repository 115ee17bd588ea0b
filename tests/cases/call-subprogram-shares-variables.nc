(A subprogram works with its caller's variables)
O1
T0101
G97 S1000 M03
G00 X62. Z2.
#1=50.
M98 P2
G00 X#1 (expect rapid X40)
M30
O2
G00 X#1 (expect rapid X50)
#1=40.
M99
