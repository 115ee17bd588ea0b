G20
T0808
G97 S800 M03
G00 X0 Z.2
G83 Z-.3 R-.1 Q2500 F.004 (expect rapid Z2.54) (expect feed Z-3.81) (expect rapid Z2.54) (expect rapid Z-3.31) (expect feed Z-7.62) (expect rapid Z5.08)
G80
G00 X2.
M30
