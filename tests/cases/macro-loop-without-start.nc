T0101
G97 S1000 M03
G00 X62. Z2.
G00 X50. (expect rapid X50)
END2 (expect finding loop-without-start)
M30
