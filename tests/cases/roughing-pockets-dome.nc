(A ball on a shaft: the arc over the top is one slope up and one slope down)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U5. R.5
G71 P10 Q20 U0 W0 F.2 (expect rapid X32. Z2. pass 1) (expect feed X32. Z-40. pass 1) (expect feed X43. Z-39.5 pass 1) (expect rapid X43. Z2. pass 2) (expect rapid X22. Z2. pass 2) (expect feed X22. Z-4.802 pass 2) (expect feed X22. Z-40. pass 2) (expect feed X33. Z-39.5 pass 2) (expect rapid X33. Z2. pass 3) (expect rapid X12. Z2. pass 3) (expect feed X12. Z-1.252 pass 3) (expect feed X23. Z-4.302 pass 3) (expect rapid X23. Z2. pass 4) (expect rapid X2. Z2. pass 4) (expect feed X2. Z-0.033 pass 4) (expect feed X13. Z-0.752 pass 4) (expect rapid X13. Z2. pass 5) (expect rapid X0. Z2. pass 5) (expect rapid X42. Z2. pass 5)
N10 G00 X0 W0 (expect no move)
G01 Z0 (expect feed X0. Z0. pass 5)
G03 X20. Z-26.18 R15. (expect arc-ccw X29.999 Z-15. I-11. K-10.198 pass 2) (expect arc-ccw X22. Z-25.198 I-15. K0. pass 2) (expect arc-ccw X22. Z-4.802 I-6. K-13.748 pass 3) (expect arc-ccw X12. Z-1.252 I-1. K-14.967 pass 4) (expect arc-ccw X20. Z-26.18 I0. K-15. pass 5)
G01 Z-40. (expect feed X20. Z-40. pass 5)
N20 X42. (expect feed X42. Z-40. pass 1) (expect feed X32. Z-40. pass 2) (expect feed X42. Z-40. pass 5)
M30
