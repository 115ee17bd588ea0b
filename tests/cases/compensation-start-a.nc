(Start-up A: straight to the point square on the start of the next move, whatever the corner)
T0101
G97 S1000 M03
G00 X-1.6 Z0
G42 G01 X20. F.2 (an outside corner of 90 degrees) (expect feed X20 Z-0.8 comp right)
Z-10. (expect feed X20 Z-10.8)
G40 U4. (expect feed X24 Z-10 comp off)
M30
