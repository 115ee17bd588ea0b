(Under G98 the lead is still per revolution)
T0101
G97 S500 M03
G98 G00 X28. Z5.
G32 Z-20. F2. (expect thread X28 Z-20 F2)
G00 X30.
G01 Z-10. F200. (expect feed X30 Z-10 F200)
M30
