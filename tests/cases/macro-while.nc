(The same with WHILE)
T0101
G97 S1000 M03
G00 X62. Z2.
#1=58.
WHILE[#1GE54.]DO1
G00 X#1 (expect rapid X58 Z2) (expect rapid X56 Z2) (expect rapid X54 Z2)
G01 Z-10. F.3 (expect feed X58 Z-10) (expect feed X56 Z-10) (expect feed X54 Z-10)
G00 U1. Z2. (expect rapid X59 Z2) (expect rapid X57 Z2) (expect rapid X55 Z2)
#1=#1-2.
END1
M30 (expect end)
