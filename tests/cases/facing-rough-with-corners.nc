(Chamfer and fillet)
T0101
G97 S1000 M03
G00 X62. Z2.
G72 W4. R.5
G72 P10 Q20 U0 W0 F.2 (expect rapid X62. Z-2. pass 1) (expect feed X30. Z-2. pass 1) (expect feed X31. Z-1.5 pass 1) (expect rapid X62. Z-1.5 pass 1) (expect rapid X62. Z-6. pass 2) (expect feed X30. Z-6. pass 2) (expect feed X31. Z-5.5 pass 2) (expect rapid X62. Z-5.5 pass 2) (expect rapid X62. Z-10. pass 3) (expect rapid X62. Z2. pass 3)
N10 G00 Z-10. (expect no move)
G01 X30. ,R2. (expect feed X34. Z-10. pass 3) (expect arc-ccw X30. Z-8. I0. K2. pass 3)
Z0 ,C1. (expect feed X30. Z-1. pass 3) (expect feed X28. Z0. pass 3)
N20 X0 (expect feed X0. Z0. pass 3)
M30
