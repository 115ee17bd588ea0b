(G83: out to R after every peck, back in to 0.5 above what was reached)
T0808
G97 S800 M03
G00 X0 Z5.
G83 Z-14. R-3. Q6000 F.1 (expect rapid Z2) (expect feed Z-4 pass 1) (expect rapid Z2 pass 1) (expect rapid Z-3.5 pass 1) (expect feed Z-10 pass 2) (expect rapid Z2) (expect rapid Z-9.5) (expect feed Z-14 pass 3) (expect rapid Z5 pass 3)
W-10. P200 (expect rapid Z2) (expect feed Z-4) (expect rapid Z2) (expect rapid Z-3.5) (expect feed Z-8) (expect dwell Z-8 S0.2) (expect rapid Z5)
G80 G00 X80. (expect rapid X80 Z5)
M30
