T0101
G97 S800 M03
G00 X40. Z6.
G42 X28.
G01 Z5. F.2
G32 Z-20. F1. (expect thread Z-20) (expect finding compensation-left-on)
M30
