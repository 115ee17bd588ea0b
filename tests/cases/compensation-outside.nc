(Nose radius 0.8, tip 3, tool on the right of its way. On a 45 degree cone the tip must run 0.8 - 0.8 tan 22.5 =)
(0.4686 farther towards the chuck: nose radius formulas, elementary geometry)
T0101
G97 S1000 M03
G00 X62. Z2.
G42 G00 X20. (to where the nose stands square on the start of the next move) (expect rapid X20 Z1.2 comp right)
G01 Z0 F.1 (expect feed X20 Z0 comp right)
M08
X28. (an outside corner: on to where the shifted cone is met) (expect feed X27.063 Z0)
X30. Z-1. (expect feed X30 Z-1.469)
Z-20. (expect feed X30 Z-20)
X62. (its end is square above its end point) (expect feed X60.4 Z-20)
G40 G00 Z2. (expect rapid X62 Z2 comp off)
M30
