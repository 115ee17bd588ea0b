(Some controls hand over a length without point in least increments)
O1
T0101
G97 S1000 M03
G00 X62. Z2.
G65 P10 X50 (expect finding length-without-point at 9)
M30
O10
G00 X#24 (expect rapid X50)
M99
