(Where corners need their comma)
T0101
G97 S1000 M03
G00 X20. Z0
G01 X30. C1. F.2 (expect feed X30 Z0) (expect finding unknown-word at 10 unproven)
Z-20. R2. (expect feed X30 Z-20) (expect finding unknown-word at 7 unproven)
X40. K-1. (expect feed X40 Z-20) (expect finding unknown-word at 6 unproven)
M30
