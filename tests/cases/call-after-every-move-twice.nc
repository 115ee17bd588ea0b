(A second G66 within the first: controls call both)
O1
T0101
G97 S1000 M03
G00 X62. Z2.
G66 P10
G66 P20 (expect finding nested-modal-call unproven)
G00 X60. (expect rapid X60)
G67
M30
O10
G00 U-1. (expect no move)
M99
O20
G00 U-2. (expect rapid X58)
M99
