(A switch for each level; a mark without number is level 1)
(option block-skip 1 3)
T0101
G97 S1000 M03
G00 X62. Z2.
/X60. (expect no move)
/1 X59. (expect no move)
/2 X58. (expect rapid X58)
/3X57. (expect no move)
N5/9 X56. (expect rapid X56)
/3#1=50.
/2#2=40.
X#1 (expect no move) (expect finding word-without-value)
X#2 (expect rapid X40)
M30
