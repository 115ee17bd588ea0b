(A scroll: the lead counts along X, on radius)
T0101
G97 S300 M03
G00 X60. Z-1.
G32 X20. F5. (expect thread X20 Z-1 F5)
G00 Z5.
M30
