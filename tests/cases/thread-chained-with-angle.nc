T0101
G97 S500 M03
G00 X28. Z5.
G32 Z-20. F2. (expect thread X28 Z-20)
G32 Z-22. Q180000 (expect thread X28 Z-22 Q180) (expect finding start-angle-in-chain at 11)
M30
