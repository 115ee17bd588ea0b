T0101
G97 S300 M03
G00 X28. Z6.
G34 Z-20. F2. (expect thread X28 Z-20 F2 change 0) (expect finding missing-lead-change)
G00 Z6.
G34 Z-20. F2. K-.5 (expect thread X28 Z-20 F2 change 0) (expect finding thread-lead-runs-out at 15)
M30
