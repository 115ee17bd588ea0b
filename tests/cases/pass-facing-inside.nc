(From the bore outwards)
T0404
G97 S1000 M03
G00 X20. Z2.
G94 X40. Z-1. F.1 (expect rapid X20 Z-1) (expect feed X40 Z-1) (expect feed X40 Z2) (expect rapid X20 Z2)
G00 Z50.
M30
