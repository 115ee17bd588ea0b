(Commons keep what the program before left in them until the control is switched off)
T0101
G97 S1000 M03
G00 X#101 Z2. (expect rapid Z2) (expect finding variable-not-known at 6 unproven) (expect finding word-without-value)
#101=62.
G00 X#101 (expect rapid X62)
M30
