(R is a position; G98 goes back to the start, G99 to R)
(option system-b)
T0808
G97 G95 S800 M03
G00 X0 Z10.
G98 G81 Z-20. R2. F.1 (expect rapid Z2) (expect feed Z-20) (expect rapid Z10)
G99 Z-21. (expect rapid Z2) (expect feed Z-21) (expect rapid Z2)
Z-22. (expect feed Z-22) (expect rapid Z2)
G98 G83 Z-6. Q5000 (expect feed Z-3) (expect rapid Z2) (expect rapid Z-2.5) (expect feed Z-6) (expect rapid Z2)
G80
G00 X80.
M30
