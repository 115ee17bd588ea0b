T0101
G97 S1000 M03
G00 X30. Z0
G01 X32. ,C3. F.2 (expect feed X32 Z0) (expect finding corner-does-not-fit at 10)
Z-20. (expect feed X32 Z-20)
Z-30. ,R2. (expect feed X32 Z-30) (expect finding corner-does-not-fit at 7)
Z-35. (straight on) (expect feed X32 Z-35)
X40. ,R1. (expect feed X40 Z-35) (expect finding corner-does-not-fit at 6)
G00 Z2. (a rapid) (expect rapid X40 Z2)
X42. ,C1. (expect rapid X42) (expect finding corner-does-not-fit at 6)
G01 X44. ,C-1. (expect feed X44) (expect finding not-above-zero at 10)
X52. ,C1. ,R2. (expect feed X48 Z2) (expect arc-cw X52 Z4) (expect finding word-twice at 6)
Z10. (expect feed X52 Z10)
,C2. (expect finding corner-does-not-fit at 1)
X60. ,C1. (expect feed X60 Z10) (expect finding corner-does-not-fit at 6)
M30
