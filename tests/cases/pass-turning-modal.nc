(Later blocks need only what changes; any movement code ends the cycle)
T0101
G97 S1000 M03
G00 X62. Z2.
G90 X56. Z-30. F.2 (expect rapid X56 Z2) (expect feed X56 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
X52. (expect rapid X52 Z2) (expect feed X52 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
Z-20. F.1 (expect rapid X52 Z2) (expect feed X52 Z-20 F0.1) (expect feed X62 Z-20) (expect rapid X62 Z2)
X48. Z-10. (expect rapid X48 Z2) (expect feed X48 Z-10) (expect feed X62 Z-10) (expect rapid X62 Z2)
M08 (expect no move)
G04 X.5 (expect dwell X62 Z2)
X46. (expect rapid X46 Z2) (expect feed X46 Z-10) (expect feed X62 Z-10) (expect rapid X62 Z2)
G01 X60. (expect feed X60 Z2)
Z-5. (expect feed X60 Z-5)
G00 X70. Z5.
G90 X58. (expect finding cycle-cuts-nothing) (expect rapid X58 Z5) (expect feed X70 Z5)
G00 X80.
M30
