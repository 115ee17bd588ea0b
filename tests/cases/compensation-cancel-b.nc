(option compensation-start-b)
(Cancelling B past an outside corner: on to the intersection, then to the end point)
T0101
G97 S1000 M03
G00 X30. Z0
G41 G01 X20. F.2 (the face, inwards; an outside corner into the bore side is not cut)
X10. (expect feed X8.4 Z0 comp left)
G40 G00 Z5. (an inside corner: square on the end) (expect rapid X10 Z5 comp off)
G42 G01 X20. Z0
X30. (on by the radius: 15 + 0.8 on radius) (expect feed X30 Z0 comp right)
G40 Z-5. (expect feed X30 Z-5 comp off)
M30
