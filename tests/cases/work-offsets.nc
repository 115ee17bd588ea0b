T0101
G97 S1000 M03
G00 X62. Z2.
G55 G00 X62. Z2. (10 mm nearer to the chuck) (expect rapid X62 Z2) (expect state work-offset 55)
G54 W0 Z2. (expect rapid X62 Z2) (expect state work-offset 54)  (expect finding word-twice)
G01 X60. F.2 (expect feed X60 Z2)
G55 X58. (Z stays where it is, which is 12 of this datum) (expect feed X58 Z12)
M30
