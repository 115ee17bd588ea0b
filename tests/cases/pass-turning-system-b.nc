(option system-b)
T0101
G97 G95 S1000 M03
G00 X62. Z2.
G77 X56. Z-30. F.2 (expect rapid X56 Z2) (expect feed X56 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
X52. (expect rapid X52 Z2) (expect feed X52 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
G79 X30. Z-2. (expect rapid X62 Z-2) (expect feed X30 Z-2) (expect feed X30 Z2) (expect rapid X62 Z2)
G00 X80.
M30
