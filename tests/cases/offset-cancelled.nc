T0101
G97 S1000 M03
G00 X62. Z2.
G28 U0 W0 T0100 (cancelled on the way home: nothing to say) (expect home)
G00 X100. Z50. (expect rapid X100 Z50) (expect finding offset-cancelled unproven)
M30
