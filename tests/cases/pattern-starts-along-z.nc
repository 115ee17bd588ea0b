(The pattern may begin with any axis)
T0101
G97 S1000 M03
G00 X40. Z5.
G73 U2. W0 R2
G73 P10 Q20 U0 W0 F.2 (expect rapid X44. Z5. pass 1) (expect rapid X44. Z2. pass 1) (expect rapid X40. Z5. pass 2) (expect rapid X40. Z2. pass 2) (expect rapid X40. Z5. pass 2)
N10 G00 Z2. (expect no move)
G01 X20. Z-5. (expect feed X24. Z-5. pass 1) (expect feed X20. Z-5. pass 2)
Z-20. (expect feed X24. Z-20. pass 1) (expect feed X20. Z-20. pass 2)
N20 X40. (expect feed X44. Z-20. pass 1) (expect feed X40. Z-20. pass 2)
M30
