(G01 in the first block: fed to the profile)
T0101
G97 S1000 M03
G00 X50. Z5.
G73 U2. W0 R2
G73 P10 Q20 U0 W0 F.2 (expect rapid X54. Z5. pass 1) (expect feed X24. Z2. pass 1) (expect rapid X50. Z5. pass 2) (expect feed X20. Z2. pass 2) (expect rapid X50. Z5. pass 2)
N10 G01 X20. Z2. (expect no move)
Z-10. (expect feed X24. Z-10. pass 1) (expect feed X20. Z-10. pass 2)
N20 X40. (expect feed X44. Z-10. pass 1) (expect feed X40. Z-10. pass 2)
M30
