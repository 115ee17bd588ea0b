(option radius-programming)
(X and U are radii; expectations stay diameters)
T0101
G97 S1000 M03
G00 X31. Z2. (expect rapid X62 Z2)
G01 X10. F.2 (expect feed X20 Z2)
U5. ,C1. (expect feed X28 Z2) (expect feed X30 Z1)
Z-20. (expect feed X30 Z-20)
G02 X20. Z-25. R5. (expect arc-cw X40 Z-25)
G01 X25. A135. (expect feed X50 Z-30)
G28 U5. W0 (expect rapid X60 Z-30) (expect home X240 Z210)
G10 P2 X.1
T0202
G28 U0 W0 (expect no move)
M30
