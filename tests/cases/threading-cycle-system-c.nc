(option system-c)
(G78 in code system C)
G71 T1010
G97 S800 M03
G00 X28. Z5.
G78 P010000 Q50 R0
G78 X19. Z-20. P500 Q500 F1.5 (expect rapid X19 Z5) (expect thread X19 Z-20) (expect rapid X28 Z-20) (expect rapid X28 Z5) (expect rapid X19 Z5) (expect thread X19 Z-20) (expect rapid X28 Z-20) (expect rapid X28 Z5)
M30
