T0101
G97 S1000 M03
G00 X62. Z2.
G90 X58. Z-30. R-4. F.2 (expect rapid X50 Z2) (expect feed X58 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
G90 X56. Z-30. (expect finding taper-not-repeated at 1 unproven) (expect rapid X48 Z2) (expect feed X56 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
G90 X54. R-4. (expect rapid X46 Z2) (expect feed X54 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
G00 X62.
G90 X52. Z-30. (expect rapid X52 Z2) (expect feed X52 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
G00 X80.
M30
