(option system-b)
(G90 and G91 in place of U and W)
T0101
G97 S1000 M03
G90 G00 X62. Z2. (expect rapid X62 Z2)
G91 G01 X-4. F.2 (expect feed X58 Z2)
Z-10. ,C1. (expect feed X58 Z-7) (expect feed X60 Z-8)
X4. (expect feed X62 Z-8)
A90. (expect no move) (expect finding line-without-end at 1)
X2. Z-2. A135. (expect feed X64 Z-10)
G90 X70. (expect feed X70 Z-10)
U2. W-3. (expect no move) (expect finding unknown-word at 1 unproven)
G91 G28 X0 Z0 (expect home X240 Z210)
G53 G00 X-10. (expect rapid X230) (expect finding codes-conflict unproven)
M30
