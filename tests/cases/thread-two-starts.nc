(Q is not modal: every pass of the second start has its own)
T0101
G97 S400 M03
G00 X28. Z6.
G32 Z-20. F4. (expect thread X28 Z-20 F4 Q0)
G00 X30.
Z6.
X28.
G32 Z-20. F4. Q180000 (expect thread X28 Z-20 F4 Q180)
G00 X30.
Z6.
X27.6
G32 Z-20. F4. (expect thread X27.6 Z-20 F4 Q0)
M30
