(option system-c)
T0101
G97 S800 M03
G00 X28. Z6.
G33 Z-20. F1. Q90000 (expect thread X28 Z-20 F1 Q90)
M30
