(Chamfer and fillet of the profile are shape)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U3. R1.
G71 P10 Q20 U0 W0 F.3 (expect rapid X36. Z2. pass 1) (expect feed X36. Z-20. pass 1) (expect feed X38. Z-19. pass 1) (expect rapid X38. Z2. pass 1) (expect rapid X30. Z2. pass 2) (expect feed X30. Z-18.001 pass 2) (expect feed X32. Z-17.001 pass 2) (expect rapid X32. Z2. pass 2) (expect rapid X26. Z2. pass 3) (expect rapid X42. Z2. pass 3)
N10 G00 X26. (expect no move)
G01 Z0 (expect feed X26. Z0. pass 3)
X30. ,C1. (expect feed X28. Z0. pass 3) (expect feed X30. Z-1. pass 3)
Z-20. ,R2. (expect feed X30. Z-18. pass 3) (expect arc-cw X34. Z-20. I2. K0. pass 3)
N20 X42. (expect feed X42. Z-20. pass 3)
M30
