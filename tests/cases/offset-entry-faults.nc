T0101
G97 S1000 M03
G00 X50. Z2.
G10 X.1 (expect finding no-such-offset at 1)
G10 P1000 X.1 (expect finding no-such-offset at 5)
G10 P0 X1. (expect finding no-such-offset at 5)
G10 L2 P7 Z0 (expect finding no-such-offset at 8)
G10 L50 (expect finding data-entry-not-understood at 5 unproven)
G10 P5 X.1 R.8 (expect finding data-entry-not-understood at 12 unproven)
G00 X48. (expect rapid X48 Z2)
M30
