(Passes of one thread at two speeds do not meet; another thread may have its own)
T0101
G97 S800 M03
G00 X28. Z6.
G32 Z-20. F1.
G00 Z6.
X27.8 S600
G32 Z-20. F1. (expect thread X27.8) (expect finding thread-speed-changed)
G00 Z-30.
S500
G32 Z-40. F1. (expect thread X27.8)
M30
