(Ends 5 from the line; then within what a rounded angle leaves)
T0101
G97 S1000 M03
G00 X20. Z0
G01 X30. Z-10. A135. F.2 (expect feed X30 Z-10) (expect finding angle-contradicts at 16)
X40. Z-20. A153.435 (expect feed X40 Z-20)
M30
