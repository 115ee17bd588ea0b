(option system-b)
(G78 in code system B)
T1010
G97 S800 M03
G00 X28. Z5.
G78 X23.4 Z-20. F1.5 (expect rapid X23.4 Z5) (expect thread X23.4 Z-18.5 F1.5) (expect thread X26.4 Z-20) (expect rapid X28 Z-20) (expect rapid X28 Z5)
G00 Z50.
M30
