T0101
G97 S1000 M03
G00 X20. Z0
G03 X30. Z-10. R5. F.1 (expect feed X30 Z-10) (expect finding arc-radius-too-small at 16)
G02 X30. Z-10. R5. (expect no move) (expect finding arc-without-chord at 16)
G02 X40. Z-15. (expect feed X40 Z-15) (expect finding arc-without-centre)
G02 X50. Z-20. R0 (expect feed X50 Z-20) (expect finding arc-without-radius)
G02 X60. Z-25. R5. I5. (expect arc-cw X60 Z-25 I5 K0) (expect finding arc-by-radius-and-centre)
M30
