T0101
G97 S1000 M03
G00 X62. Z2.
G90 X56. Z-30. (expect finding missing-feed) (expect rapid X56) (expect feed X56 Z-30) (expect feed X62) (expect rapid X62 Z2)
X52. U-4. F.2 (expect finding word-twice at 6) (expect rapid X48) (expect feed X48 Z-30) (expect feed X62) (expect rapid X62 Z2)
X50. ,C1. (expect finding corner-in-cycle at 6) (expect rapid X50) (expect feed X50 Z-30) (expect feed X62) (expect rapid X62 Z2)
X48. J1. (expect finding unknown-word at 6 unproven) (expect rapid X48) (expect feed X48 Z-30) (expect feed X62) (expect rapid X62 Z2)
X46. G53 (expect finding codes-conflict at 6)
G00 X80.
M30
