(Said once for a G96, however many passes)
T0101
G50 S2000
G96 S100 M03
G00 X28. Z6.
G32 Z-20. F1. (expect finding thread-at-surface-speed)
G00 Z6.
G32 Z-20. F1. (expect thread X28)
G97 S800
G00 Z6.
G32 Z-20. F1. (expect thread X28)
M30
