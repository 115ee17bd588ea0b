(A feed of 0.2 is no lead, and a lead is no feed)
T0101
G97 S400 M03
G00 X28. Z6.
G01 Z5. F.2
G32 Z-20. (expect thread X28 Z-20 F0.2) (expect finding lead-left-from-feed)
G00 X30.
Z5.
X28.
G32 Z-20. F1.5 (expect thread F1.5)
G00 X30.
Z5.
G01 X26. (expect feed X26 F1.5) (expect finding feed-left-from-thread)
Z-20. F.2
M30
