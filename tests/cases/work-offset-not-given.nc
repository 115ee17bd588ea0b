T0101
G97 S1000 M03
G00 X62. Z2.
G59 (expect finding work-offset-not-given at 1 unproven)
G00 X50. Z1. (expect rapid X50 Z1)
M30
