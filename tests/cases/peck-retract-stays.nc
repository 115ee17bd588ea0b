(Without R the retract of the set-up, 0.5; what was given stays for later cycles)
T0808
G97 S800 M03
G00 X0 Z2.
G74 Z-8. Q5000 F.1 (expect feed Z-3) (expect rapid Z-2.5) (expect feed Z-8) (expect rapid Z2)
G74 R0 (expect no move)
G74 Z-8. Q5000 (expect feed Z-3) (expect feed Z-8) (expect rapid Z2)
G74 R2.
G74 W-10. Q5000 (expect feed Z-3) (expect rapid Z-1) (expect feed Z-8) (expect rapid Z2)
G74 R-1. (expect no move) (expect finding not-above-zero at 5)
G74 (expect no move) (expect finding cycle-without-axes at 1)
G00 Z50.
M30
