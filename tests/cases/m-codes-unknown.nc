(One that the set-up does not know)
T0101
G97 S1000 M03
G00 X62. Z2.
M77 (expect no move) (expect finding unknown-code at 1 unproven)
M63.5 (expect no move) (expect finding unknown-code at 1 unproven)
M1063 (expect no move) (expect finding unknown-code at 1 unproven)
G00 X60. (expect rapid X60)
M30
