(Between shoulders: the approach slants, and passes begin on it)
T0101
G97 S1000 M03
G00 X42. Z-8.
G71 U3. R.5
G71 P10 Q20 U0 W0 F.2 (expect feed X36. Z-11. pass 1) (expect feed X36. Z-23. pass 1) (expect feed X43. Z-25.5 pass 1) (expect rapid X43. Z-8. pass 2) (expect feed X42. Z-8. pass 2) (expect feed X30. Z-14. pass 2) (expect rapid X42. Z-8. pass 2)
N10 G01 X30. Z-14. (expect no move)
Z-20. (expect feed X30. Z-20. pass 2)
N20 X42. Z-26. (expect feed X42. Z-26. pass 1) (expect feed X42. Z-26. pass 2)
M30
