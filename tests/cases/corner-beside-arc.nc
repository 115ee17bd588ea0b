(Fillet of 2 between a cylinder of radius 10 and an arc of radius 10 that stands square on it: its centre is at radius 12)
(and 12 from the arc's centre. Chamfer of 1: both its ends lie 1 from the corner, on the arc 2 asin 1/20 away. Elementary)
(geometry)
T0101
G97 S1000 M03
G00 X20. Z0
G01 Z-10. ,R2. F.2 (expect feed X20 Z-8.168) (expect arc-cw X23.333 Z-10.140 I2 K0)
G03 X40. Z-20. K-10. (expect arc-ccw X40 Z-20)
G01 Z-30. ,C1. (expect feed X40 Z-29) (expect feed X41.998 Z-30.05)
G03 X60. Z-40. K-10. (expect arc-ccw X60 Z-40 I-0.999 K-9.95)
M30
