(What stands before G65 is no argument)
O1
T0101
G97 S1000 M03
G00 X62. Z2.
X1. G65 P10 Z-5. (expect finding unknown-word at 1 unproven)
M30
O10
G00 X#24 Z#26 (expect rapid X62 Z-5) (expect finding word-without-value)
M99
