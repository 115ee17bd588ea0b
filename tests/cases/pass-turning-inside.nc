(A bore: the end lies farther out than the start, and the tool comes back inwards)
T0404
G97 S1000 M03
G00 X20. Z2.
G90 X24. Z-30. F.15 (expect rapid X24 Z2) (expect feed X24 Z-30) (expect feed X20 Z-30) (expect rapid X20 Z2)
U6. R2. (expect rapid X30 Z2) (expect feed X26 Z-30) (expect feed X20 Z-30) (expect rapid X20 Z2)
G00 Z50.
M30
