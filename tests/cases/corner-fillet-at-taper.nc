(Fillet of 5 between a cylinder and a 45 degree cone: tangent length 5 tan 22.5 = 2.0711; its foot on the cone is)
(2.0711 cos 45 = 1.4645 on. Elementary geometry)
T0101
G97 S1000 M03
G00 X30. Z0
G01 Z-20. ,R5. F.2 (expect feed X30 Z-17.929) (expect arc-cw X32.929 Z-21.464 I5 K0)
X50. Z-30. (expect feed X50 Z-30)
M30
