(The taper as older programs have it: I along X, K along Z)
T0101
G97 S1000 M03
G00 X62. Z2.
G90 X58. Z-30. I-4. F.2 (expect rapid X50 Z2) (expect feed X58 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
X56. (expect rapid X48 Z2) (expect feed X56 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
I4. (expect no move) (expect finding taper-against-depth at 1)
G94 X20. Z-1. K-3. (expect rapid X62 Z-4) (expect feed X20 Z-1) (expect feed X20 Z2) (expect rapid X62 Z2)
Z-2. I1. (expect finding unknown-word at 6 unproven) (expect rapid X62 Z-5) (expect feed X20 Z-2) (expect feed X20 Z2) (expect rapid X62 Z2)
G00 X80.
M30
