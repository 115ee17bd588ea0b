(U on diameter and W in a block with a corner count to the sharp corner, not to the end of the chamfer)
T0101
G97 S1000 M03
G00 X20. Z0
G01 U10. ,C1. F.2 (expect feed X28 Z0) (expect feed X30 Z-1)
W-20. ,R2. (expect feed X30 Z-18) (expect arc-cw X34 Z-20 I2 K0)
U20. (expect feed X50 Z-20)
M30
