(A bore towards the chuck with tip 2: G41. The tool goes 0.4 - 0.4 tan 22.5 = 0.2343 too little along on the cone)
T0404
G97 S1000 M03
G00 X20. Z2.
G41 X30. (expect rapid X30 Z1.6 comp left)
G01 Z0 F.1
X28. Z-1. (expect feed X28 Z-1.234)
Z-20. (expect feed X28 Z-20.4)
G40 X20.
G00 Z2.
M30
