(A negative R goes the long way: row TC042. From X20 Z0 to X20 Z-6, R5: the centre is 4 from the chord)
T0101
G97 S1000 M03
G00 X20. Z0
G02 X20. Z-6. R5. F.1 (expect arc-cw X20 Z-6 I4 K-3)
G00 X20. Z0
G02 X20. Z-6. R-5. (expect arc-cw X20 Z-6 I-4 K-3)
G00 X20. Z0
G03 X20. Z-6. R5. (expect arc-ccw X20 Z-6 I-4 K-3)
M30
