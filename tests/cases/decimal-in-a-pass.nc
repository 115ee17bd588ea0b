(option whole-increments)
(The taper of a pass is a length like the others: R-1000 is 1 on radius)
T0101
G97 S1000 M03
G00 X62000 Z2000
G90 X58000 Z-20000 R-1000 F.2 (expect rapid X56 Z2) (expect feed X58 Z-20) (expect feed X62) (expect rapid X62 Z2)
G00 X70000
M30
