(1 in 16: the lead counts along Z, the longer axis)
T0101
G97 S500 M03
G00 X26. Z5.
G32 X28. Z-27. F2. (expect thread X28 Z-27 F2)
M30
