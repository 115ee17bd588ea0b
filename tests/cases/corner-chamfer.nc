(Chamfer of 1 along each leg)
T0101
G97 S1000 M03
G00 X20. Z0
G01 X30. ,C1. F.2 (expect feed X28 Z0) (expect feed X30 Z-1)
Z-20. (expect feed X30 Z-20)
X40. ,C2. F.1 (expect feed X36 Z-20 F0.1) (expect feed X40 Z-22 F0.1)
(words between a corner and the next move do not matter)
M08
G04 X.5 (expect dwell X40 Z-22)
G01 Z-30. F.3 (expect feed X40 Z-30 F0.3)
M30
