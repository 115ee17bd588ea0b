T0101
G97 S800 M03
G00 X28. Z6.
G32 Z-20. ,C1. F1. (expect thread X28 Z-20) (expect finding corner-does-not-fit at 11)
G01 X30. ,R1. F.2 (expect feed X30 Z-20) (expect finding corner-does-not-fit at 10)
G32 Z-30. F1. (expect thread X30 Z-30)
M30
