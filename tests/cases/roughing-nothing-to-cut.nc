(A start right above the profile: only the cut along it is left)
T0101
G97 S1000 M03
G00 X31. Z2.
G71 U3. R1.
G71 P10 Q20 U0 W0 F.3 (expect rapid X30. Z2. pass 1) (expect rapid X31. Z2. pass 1)
N10 G00 X30. (expect no move)
G01 Z-20. (expect feed X30. Z-20. pass 1)
N20 X31. (expect feed X31. Z-20. pass 1)
M30
