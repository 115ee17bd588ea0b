(option system-b)
(G33 in code systems B and C; G32 is none of theirs)
T0101
G97 S800 M03
G00 X28. Z6.
G33 Z-20. F1. (expect thread X28 Z-20 F1)
G00 Z6.
G32 Z-20. F1. (expect finding unknown-code unproven)
M30
