(Another cycle begins with no figures of the one before)
T0101
G97 S1000 M03
G00 X62. Z2.
G94 X20. Z-1. R-1. F.2
G90 X56. Z-30. (expect rapid X56 Z2) (expect feed X56 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
G94 X20. Z-2. (expect rapid X62 Z-2) (expect feed X20 Z-2) (expect feed X20 Z2) (expect rapid X62 Z2)
G94 X20. (expect rapid X62 Z-2) (expect feed X20 Z-2) (expect feed X20 Z2) (expect rapid X62 Z2)
G00 X80.
M30
