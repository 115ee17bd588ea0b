(The figure in each finding is the largest that fits: corner_test.cpp holds it to that)
T0101
G97 S1000 M03
G00 X20. Z0
G01 X30. ,C6. F.2 (expect feed X30 Z0) (expect finding corner-does-not-fit at 10)
Z-20. ,R6. (expect feed X30 Z-20) (expect finding corner-does-not-fit at 7)
X40. ,R30. (expect feed X40 Z-20) (expect finding corner-does-not-fit at 6)
G03 X60. Z-30. R10. ,C25. (expect arc-ccw X60 Z-30) (expect finding corner-does-not-fit at 21)
G01 X62. (expect feed X62 Z-30)
M30
