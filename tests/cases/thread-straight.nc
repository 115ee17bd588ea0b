(F is the lead; it stays for the passes that follow, and each pass is written out)
T0101
G97 S800 M03
G00 X28. Z5.
X23.4
G32 Z-20. F1.5 (expect thread X23.4 Z-20 F1.5 Q0)
G00 X28. (expect rapid X28 Z-20)
Z5.
X23.
G32 Z-20. (expect thread X23 Z-20 F1.5)
G00 X28.
M30
