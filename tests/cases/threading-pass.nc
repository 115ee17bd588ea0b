(One pass and back; the last 1.5 of the way pull out at 45 degrees)
T1010
G97 S800 M03
G00 X28. Z5.
G92 X23.4 Z-20. F1.5 (expect rapid X23.4 Z5 pass 1) (expect thread X23.4 Z-18.5 F1.5 Q0 pass 1) (expect thread X26.4 Z-20 F1.5 pass 1) (expect rapid X28 Z-20 pass 1) (expect rapid X28 Z5 pass 1)
G00 X40. (expect rapid X40 Z5)
M30
