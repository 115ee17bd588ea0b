(Roughing by hand: passes until the diameter is reached)
T0101
G97 S1000 M03
G00 X62. Z2.
#1=58.
N10 G00 X#1 (expect rapid X58 Z2) (expect rapid X56 Z2) (expect rapid X54 Z2)
G01 Z-10. F.3 (expect feed X58 Z-10) (expect feed X56 Z-10) (expect feed X54 Z-10)
G00 U1. Z2. (expect rapid X59 Z2) (expect rapid X57 Z2) (expect rapid X55 Z2)
#1=#1-2.
IF[#1GE54.]GOTO10
M30 (expect end)
