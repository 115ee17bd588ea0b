(option short-pecks)
T0808
G97 S800 M03
G00 X0 Z5.
G83 Z-14. R-3. Q6000 F.1 (expect rapid Z2) (expect feed Z-4 pass 1) (expect rapid Z-3.5) (expect feed Z-10 pass 2) (expect rapid Z-9.5) (expect feed Z-14 pass 3) (expect rapid Z5)
G80
G00 X80.
M30
