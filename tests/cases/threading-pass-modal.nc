(X alone runs it again to the same Z; U counts from the start)
T1010
G97 S800 M03
G00 X28. Z5.
G92 X23.4 Z-20. F1.5
X23. (expect rapid X23 Z5) (expect thread X23 Z-18.5 F1.5) (expect thread X26 Z-20) (expect rapid X28 Z-20) (expect rapid X28 Z5)
U-5.4 (expect rapid X22.6 Z5) (expect thread X22.6 Z-18.5) (expect thread X25.6 Z-20) (expect rapid X28 Z-20) (expect rapid X28 Z5)
X22.4 W-15. (expect rapid X22.4 Z5) (expect thread X22.4 Z-8.5) (expect thread X25.4 Z-10) (expect rapid X28 Z-10) (expect rapid X28 Z5)
G00 X40. (expect rapid X40 Z5)
M30
