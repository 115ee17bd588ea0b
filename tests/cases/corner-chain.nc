(Every element is shared by two corners; the step of 3 just holds a chamfer of 1 and a fillet of 2)
T0101
G97 S1000 M03
G00 X20. Z0
G01 X30. ,C1. F.2 (expect feed X28 Z0) (expect feed X30 Z-1)
Z-20. ,R1. (expect feed X30 Z-19) (expect arc-cw X32 Z-20 I1 K0)
X36. ,R2. (expect arc-ccw X36 Z-22 I0 K-2)
Z-40. ,C2. (expect feed X36 Z-38) (expect feed X40 Z-40)
X50. (expect feed X50 Z-40)
M30
