(I is on radius although X is a diameter: row TC056)
T0101
G97 S1000 M03
G00 X10. Z-20.
G02 X20. Z-25. I5. K0 F.1 (expect arc-cw X20 Z-25 I5 K0)
G03 U10. W-5. K-5. (expect arc-ccw X30 Z-30 I0 K-5)
G02 X40. Z-35. I5. (expect arc-cw X40 Z-35 I5 K0)
M30
