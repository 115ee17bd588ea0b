(The code stays until another motion code: axis words alone go on threading)
T0101
G97 S500 M03
G00 X28. Z5.
G32 Z-10. F2. (expect thread X28 Z-10)
Z-20. (expect thread X28 Z-20 F2)
W-5. (expect thread X28 Z-25 F2)
M30
