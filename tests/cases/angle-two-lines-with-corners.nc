(A cylinder and a taper of 45 degrees that meet at X20 Z-15, fillet 5: tangent length 5 tan 22.5 = 2.071. Then a chamfer of)
(1 along the taper and the face that follows. Elementary geometry)
T0101
G97 S1000 M03
G00 X20. Z0
G01 A180. ,R5. F.2 (expect feed X20 Z-12.929) (expect arc-cw X22.929 Z-16.464 I5 K0)
X50. Z-30. A135. ,C1. (expect feed X48.586 Z-29.293) (expect feed X52 Z-30)
X60. (expect feed X60 Z-30)
M30
