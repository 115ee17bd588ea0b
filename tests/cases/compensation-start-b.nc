(option compensation-start-b)
(Start-up B: at an outside corner of up to 90 degrees straight to the intersection of both offsets)
T0101
G97 S1000 M03
G00 X-1.6 Z0
G42 G01 X20. F.2 (expect feed X20 Z0 comp right)
Z-10. (expect feed X20 Z-10.8)
G40 U4. (an inside corner, as with A) (expect feed X24 Z-10 comp off)
M30
