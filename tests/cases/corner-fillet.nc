(Fillets between straight moves; the tangent length at a square corner is the radius)
T0101
G97 S1000 M03
G00 X30. Z0
G01 Z-20. ,R2. F.2 (expect feed X30 Z-18) (expect arc-cw X34 Z-20 I2 K0)
X50. ,R3. (expect feed X44 Z-20) (expect arc-ccw X50 Z-23 I0 K-3)
Z-40. (expect feed X50 Z-40)
M30
