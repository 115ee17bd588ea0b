(R that leads away from the part by more than the depth, outside and inside, is refused)
T0101
G97 S1000 M03
G00 X62. Z2.
G90 X58. Z-30. R4. F.2 (expect no move) (expect finding taper-against-depth at 16)
X30. R4. (expect rapid X38 Z2) (expect feed X30 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
G00 X80. Z50.
T0404
G00 X20. Z2.
G90 X24. Z-30. R-4. (expect no move) (expect finding taper-against-depth at 16)
R-1. (expect rapid X22 Z2) (expect feed X24 Z-30) (expect feed X20 Z-30) (expect rapid X20 Z2)
G00 X18. Z50.
M30
