(option whole-units)
(Known to count whole units: nothing to note)
T0101
G97 S1000 M03
G00 X62 Z2 (expect rapid X62 Z2)
G01 X58 F.2 (expect feed X58 Z2)
M30
