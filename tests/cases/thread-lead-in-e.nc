T0101
G97 S400 M03
G00 X28. Z6.
G32 Z-20. E1.4111 (expect thread X28 Z-20 F1.4111) (expect finding lead-in-e at 11 unproven)
G00 X30.
Z6.
X27.6
G32 Z-20. (expect thread X27.6 F1.4111)
G00 Z6.
G32 Z-20. E-1. (expect feed X27.6) (expect finding not-above-zero at 11)
M30
