T0101
G97 S1000 M03
G20
G00 X1. Z0
G01 X1.2 ,C.04 F.008 (expect feed X28.448 Z0) (expect feed X30.48 Z-1.016)
Z-.8 ,R.08 (expect feed X30.48 Z-18.288) (expect arc-cw X34.544 Z-20.32 I2.032 K0)
X2. (expect feed X50.8 Z-20.32)
M30
