T0101
G97 S400 M03
G00 X28. Z6.
G32 Z-20. (expect feed X28 Z-20 F0) (expect finding missing-feed)
M30
