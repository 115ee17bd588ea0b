(12 threads to the inch: lead 0.08333 inch)
G20 T0101
G97 S500 M03
G00 X1. Z.2
G32 Z-.8 F.08333 (expect thread X25.4 Z-20.32 F2.1166)
M30
