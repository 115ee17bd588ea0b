(option block-skip)
(A block left out is left out of the profile too)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U3. R1.
G71 P10 Q20 U0 W0 F.3 (expect rapid X36. Z2. pass 1) (expect feed X36. Z-20. pass 1) (expect feed X38. Z-19. pass 1) (expect rapid X38. Z2. pass 1) (expect rapid X30. Z2. pass 2) (expect rapid X42. Z2. pass 2)
N10 G00 X30. (expect no move)
/G01 X32. Z-5. (expect no move)
G01 Z-20. (expect feed X30. Z-20. pass 2)
N20 X42. (expect feed X42. Z-20. pass 2)
M30
