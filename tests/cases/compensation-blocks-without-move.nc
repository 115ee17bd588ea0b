(Two blocks that move nothing are read over, a third is not known to be)
T0101
G97 S1000 M03
G00 X62. Z2.
G42 G01 X50. F.2
Z-10. (expect feed X50 Z-10)
M08
G04 X1. (expect dwell S1)
X54. (expect feed X54 Z-10)
F.1 (expect finding compensation-blocks-without-move at 1 unproven)
G97 S1200
M09
Z-20. (expect feed X54 Z-20.8)
M08
M09
M08 (in front of the move that cancels it does not matter)
G40 X62.
M30
