(A tapered bore that narrows towards the chuck: the start is larger by 0.5 on radius)
T1111
G97 S800 M03
G00 X18. Z5.
G76 P010000 Q50 R0
G76 X21. Z-15. P500 Q500 R.5 F1.5 (expect rapid X22 Z5) (expect thread X21 Z-15) (expect rapid X18 Z-15) (expect rapid X18 Z5) (expect rapid X22 Z5) (expect thread X21 Z-15) (expect rapid X18 Z-15) (expect rapid X18 Z5)
M30
