T0101
G97 S1000 M03
G00 X62. Z2.
G01 X50. U2. F.2 (expect feed X52 Z2) (expect finding word-twice at 10)
G01 Z-5. Z-6. (expect feed X52 Z-6) (expect finding word-twice at 10)
U2. U3. (expect feed X54 Z-6) (expect finding word-twice at 5)
M30
