(The first block holds for the threads that follow)
T1010
G97 S800 M03
G00 X28. Z5.
G76 P010000 Q50 R0
G76 X19. Z-20. P500 Q500 F1.5
G76 X19. Z-10. P500 Q500 F1.5 (expect rapid X19 Z5) (expect thread X19 Z-10) (expect rapid X28 Z-10) (expect rapid X28 Z5) (expect rapid X19 Z5) (expect thread X19 Z-10) (expect rapid X28 Z-10) (expect rapid X28 Z5)
M30
