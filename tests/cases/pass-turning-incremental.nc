(U and W count from the start point, in every block anew)
T0101
G97 S1000 M03
G00 X62. Z2.
G90 U-6. W-32. F.2 (expect rapid X56 Z2) (expect feed X56 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
U-10. (expect rapid X52 Z2) (expect feed X52 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
W-12. (expect rapid X52 Z2) (expect feed X52 Z-10) (expect feed X62 Z-10) (expect rapid X62 Z2)
X48. W-22. (expect rapid X48 Z2) (expect feed X48 Z-20) (expect feed X62 Z-20) (expect rapid X62 Z2)
G00 X80.
M30
