(A retract never goes behind the start)
T0808
G97 S800 M03
G00 X0 Z2.
G74 R7.
G74 Z-8. Q5000 F.1 (expect feed Z-3) (expect rapid Z2) (expect feed Z-8) (expect rapid Z2)
G00 Z50.
M30
