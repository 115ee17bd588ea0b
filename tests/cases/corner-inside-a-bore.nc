(From the face into a bore: chamfer at its mouth, fillet at its shoulder, and a chamfer on the way in X down)
T0404
G97 S1000 M03
G00 X50. Z0
G01 X40. ,C1. F.1 (expect feed X42 Z0) (expect feed X40 Z-1)
Z-20. ,R2. (expect feed X40 Z-18) (expect arc-ccw X36 Z-20 I-2 K0)
X30. ,C.5 (expect feed X31 Z-20) (expect feed X30 Z-20.5)
Z-30. (expect feed X30 Z-30)
G00 X28. (expect rapid X28)
Z5. (expect rapid Z5)
M30
