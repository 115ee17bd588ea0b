(G31: at feed to its end, and not proven)
T0101
G97 S100 M03
G00 X62. Z5.
G31 Z1. F.5 (expect feed X62 Z1 F0.5) (expect finding skip-not-modelled at 1 unproven)
G31 W-1. (expect feed X62 Z0) (expect finding skip-not-modelled at 1 unproven)
G00 Z5. (expect rapid Z5)
G31 (expect no move) (expect finding cycle-without-axes at 1)
Z4. (expect rapid Z4)
M30
