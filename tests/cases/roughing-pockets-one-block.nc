(One block, with D)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 P10 Q20 D3. R.5 U0 W0 F.2 (expect rapid X40. Z2. pass 1) (expect feed X36. Z-20.667 pass 1) (expect feed X42. Z-22. pass 1) (expect feed X43. Z-21.5 pass 1) (expect rapid X43. Z2. pass 2) (expect rapid X40. Z2. pass 2) (expect rapid X42. Z2. pass 2)
N10 G00 X40. W0 (expect no move)
G01 Z-10. (expect feed X40. Z-10. pass 1) (expect feed X40. Z-10. pass 2)
X34. Z-12. (expect feed X36. Z-11.333 pass 1) (expect feed X34. Z-12. pass 2)
Z-20. (expect feed X34. Z-20. pass 2)
N20 X40. Z-22. (expect feed X40. Z-22. pass 1) (expect feed X40. Z-22. pass 2)
M30
