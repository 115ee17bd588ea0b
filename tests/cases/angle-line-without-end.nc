(What cannot close the first line leaves it out and says so at its angle)
T0101
G97 S1000 M03
G00 X20. Z0
G01 A180. F.2 (expect no move) (expect finding line-without-end at 5)
Z-10. (expect feed X20 Z-10)
A170. (expect no move) (expect finding line-without-end at 1)
X30. Z-20. (expect feed X30 Z-20)
A180. (expect no move) (expect finding line-without-end at 1)
U10. W-10. A135. (expect feed X40 Z-30)
A180. (expect no move) (expect finding line-without-end at 1)
A135. (expect no move) (expect finding line-without-end at 1)
G02 X44. Z-32. R2. (an arc) (expect arc-cw X44 Z-32)
G01 A180. (expect no move) (expect finding line-without-end at 5)
X50. Z-40. A180. (parallel) (expect feed X50 Z-40)
A90. ,R2. (expect no move) (expect finding line-without-end at 1)
G00 X60. Z5. (expect rapid X60 Z5)
G01 A180. (expect no move) (expect finding line-without-end at 5)
G28 U0 W0
M30
