T0808
G97 S800 M03
G00 X0 Z5.
G83 Z-10. R-3. Q4000 F.1
G28 U0 W0 (expect finding cycle-left-on at 1)
M30 (expect finding cycle-left-on at 1)
