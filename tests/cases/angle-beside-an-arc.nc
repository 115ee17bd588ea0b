(A line tangent to an arc is not worked out)
T0101
G97 S1000 M03
G00 X20. Z0
G01 Z-10. F.2 (expect feed X20 Z-10)
G02 X24. Z-12. R2. A90. (expect arc-cw X24 Z-12) (expect finding unknown-word at 20 unproven)
G01 A135. (expect no move) (expect finding line-without-end at 5)
G03 X40. Z-20. R8. (expect arc-ccw X40 Z-20)
M30
