(A corner word where no corner can be is not passed over)
T0101
G97 S1000 M03
G00 X20. Z0
G28 U0 ,R2. (expect finding unknown-word at 8 unproven)
G04 X1. ,C1. (expect finding unknown-word at 9 unproven) (expect dwell S1)
G00 Z5. ,A30. (expect rapid Z5) (expect finding unknown-word at 9 unproven)
G01 Z2. F.2 ,K3. (expect feed Z2) (expect finding unknown-word at 13 unproven)
M30
