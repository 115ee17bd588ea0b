(option no-optional-stop)
T0101
G97 S1000 M03
G00 X62. Z2.
M00 (expect stop)
M01 (nothing stops here) (expect no move)
M30 (expect end)
