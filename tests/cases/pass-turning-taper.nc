(R: radius at the start of the cut less that at its end. It stays until a new R)
T0101
G97 S1000 M03
G00 X62. Z2.
G90 X58. Z-30. R-4. F.2 (expect rapid X50 Z2) (expect feed X58 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
X56. (expect rapid X48 Z2) (expect feed X56 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
R-2. (expect rapid X52 Z2) (expect feed X56 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
R0 (expect rapid X56 Z2) (expect feed X56 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
G00 X62. Z2.
G90 X40. Z-30. R11. (expect feed X40 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
X30. R4. (expect rapid X38 Z2) (expect feed X30 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
G00 X80.
M30
