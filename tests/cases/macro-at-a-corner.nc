(A corner waits for the next move, not for the next block)
T0101
G97 S1000 M03
G00 X62. Z2.
G00 X40. Z1.
G01 Z-10. ,C2. F.2 (expect feed X40 Z-8) (expect feed X44 Z-10)
#1=50.
X#1 (expect feed X50 Z-10)
M30
