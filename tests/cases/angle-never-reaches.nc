T0101
G97 S1000 M03
G00 X20. Z0
G01 X30. A180. F.2 (expect feed X30 Z0) (expect finding angle-never-reaches at 10)
Z-10. A90. (expect feed X30 Z-10) (expect finding angle-never-reaches at 7)
X30. A180. (nothing to do) (expect no move)
Z-20. A0. (expect feed X30 Z-20) (expect finding angle-points-back at 7 unproven)
X40. A315. (expect feed X40 Z-25) (expect finding angle-points-back at 6 unproven)
M30
