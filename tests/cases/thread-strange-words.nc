(A word that G32 has no use for)
T0101
G97 S800 M03
G00 X28. Z6.
G32 Z-20. R2. F1. (expect thread X28 Z-20) (expect finding unknown-word at 11 unproven)
G00 Z6.
G32 Z-20. K2. F1. (expect thread X28 Z-20 change 0) (expect finding unknown-word at 11 unproven)
M30
