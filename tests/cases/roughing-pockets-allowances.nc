(With a pocket whose wall slopes more gently than U over W: the allowances stay outside the part)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U4. R.5
G71 P10 Q20 U.6 W.2 F.2 (expect rapid X42. Z2.2 pass 1) (expect rapid X34. Z2.2 pass 1) (expect feed X34. Z-24.8 pass 1) (expect feed X43. Z-29.3 pass 1) (expect rapid X43. Z2.2 pass 2) (expect rapid X30.6 Z2.2 pass 2) (expect rapid X42. Z2. pass 2)
N10 G00 X30. W0 (expect no move)
G01 Z-10. (expect feed X30.6 Z-9.8 pass 2)
X33. Z-20. (expect feed X33.6 Z-19.8 pass 2)
X31. Z-25. (expect feed X31.6 Z-24.8 pass 2)
X36. (expect feed X36.6 Z-24.8 pass 1) (expect feed X36.6 Z-24.8 pass 2)
Z-30. (expect feed X36.6 Z-29.8 pass 1) (expect feed X36.6 Z-29.8 pass 2)
N20 X42. (expect feed X42. Z-29.8 pass 1) (expect feed X42.6 Z-29.8 pass 2)
M30
