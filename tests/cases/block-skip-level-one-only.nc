(The switch of level 1 does not skip the others)
(option block-skip)
T0101
G97 S1000 M03
G00 X62. Z2.
/X60. (expect no move)
/2 X58. (expect rapid X58)
M30
