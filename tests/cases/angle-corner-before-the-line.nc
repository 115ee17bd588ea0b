(A corner at the beginning of a line that has no end yet)
T0101
G97 S1000 M03
G00 X16. Z0
G01 X20. ,C1. F.2 (expect feed X18 Z0) (expect feed X20 Z-1)
A180. (expect feed X20 Z-15)
M08
X50. Z-30. A135. (expect feed X50 Z-30)
M30
