(option compensation-start-b)
(A sharper one: both lengthened by the nose radius, and across: 10 + 0.8 sqrt 2 - 0.8 on radius)
T0101
G97 S1000 M03
G00 X-1.6 Z0
G42 G01 X20. F.2 (expect feed X20 Z0) (expect feed X20.663 Z-0.8)
X10. Z-5. (the way out turns sharply too: on by the radius, and across) (expect feed X8.4 Z-6.931)
G40 G00 Z2. (expect rapid X6.8 Z-6.6) (expect rapid X10 Z2 comp off)
M30
