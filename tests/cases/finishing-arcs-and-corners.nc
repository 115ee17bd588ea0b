(Arcs, chamfers and fillets of the profile as they stand)
T0101
G97 S1000 M03
G00 X42. Z2.
G70 P10 Q20 F.1 (expect rapid X42. Z2. pass 1)
N10 G00 X16. (expect rapid X16. Z2. pass 1)
G01 Z0 (expect feed X16. Z0. pass 1)
X20. ,C1. (expect feed X18. Z0. pass 1) (expect feed X20. Z-1. pass 1)
Z-15. ,R2. (expect feed X20. Z-13. pass 1) (expect arc-cw X24. Z-15. I2. K0. pass 1)
X30. (expect feed X30. Z-15. pass 1)
G03 X36. Z-18. R3. (expect arc-ccw X36. Z-18. I0. K-3. pass 1)
N20 G01 X42. (expect feed X42. Z-18. pass 1)
M30
