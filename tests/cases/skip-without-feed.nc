T0101
G97 S100 M03
G00 X62. Z5.
G31 Z1. (expect feed X62 Z1) (expect finding skip-not-modelled at 1 unproven) (expect finding missing-feed)
G42 G00 X62. Z3. F.2
G31 Z1. (expect finding skip-not-modelled at 1 unproven) (expect finding compensation-left-on at 1)
M30
