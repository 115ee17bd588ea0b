T0101
G97 S1000 M03
G00 X62. Z2.
GOTO#1 (expect finding bad-jump)
M30
