O1
T0101
G97 S1000 M03
G00 X62. Z2.
M98 P77 (expect finding subprogram-not-found at 5)
G00 X50. (expect rapid X50)
M30
