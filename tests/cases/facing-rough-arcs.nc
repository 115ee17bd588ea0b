(A rounded nose: each pass ends on the arc)
T0101
G97 S1000 M03
G00 X62. Z2.
G72 W4. R.5
G72 P10 Q20 U0 W0 F.2 (expect rapid X62. Z-2. pass 1) (expect feed X20.404 Z-2. pass 1) (expect feed X21.404 Z-1.5 pass 1) (expect rapid X62. Z-1.5 pass 1) (expect rapid X62. Z-6. pass 2) (expect feed X24. Z-6. pass 2) (expect feed X25. Z-5.5 pass 2) (expect rapid X62. Z-5.5 pass 2) (expect rapid X62. Z-10. pass 3) (expect rapid X62. Z2. pass 3)
N10 G00 Z-10. (expect no move)
G01 X40. F.1 (expect feed X40. Z-10. pass 3)
G03 X20. Z0 R10. (expect arc-ccw X20. Z0. I0. K10. pass 3)
N20 G01 X0 (expect feed X0. Z0. pass 3)
M30
