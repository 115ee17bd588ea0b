(Code system A has G32)
T0101
G97 S800 M03
G00 X28. Z6.
G33 Z-20. F1. (expect no move) (expect finding unknown-code at 1 unproven)
M30
