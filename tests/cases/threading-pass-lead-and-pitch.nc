(Station 12 holds a full profile of pitch 1.5: two starts have a lead of 3)
T1212
G97 S800 M03
G00 X28. Z5.
G92 X23.4 Z-20. F1.5
X23.2 F3.
X23. F1.25 (expect finding thread-lead-differs at 6)
G00 X40.
M30
