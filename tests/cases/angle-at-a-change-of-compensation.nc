(The move on and the move off compensation are single lines: the second block of two lines cannot ask for them)
T0101
G97 S1000 M03
G00 X20. Z2.
G01 A170. F.2 (expect no move) (expect finding line-without-end at 5)
G42 X40. Z-20. A120. (expect feed)
A180. (expect no move) (expect finding line-without-end at 1)
G40 X60. Z-30. A135. (expect feed)
X62. (expect feed X62 Z-30)
M30
