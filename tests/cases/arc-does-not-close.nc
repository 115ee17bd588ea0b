(0.003 mm is too much: row TC040; the control stops, here the chord is run)
T0101
G97 S1000 M03
G00 X20. Z0
G03 X30.006 Z-5. K-5. F.1 (expect feed X30.006 Z-5) (expect finding arc-does-not-close at 18)
G01 X32. (expect feed X32)
M30
