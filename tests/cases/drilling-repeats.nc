(K, or L: so many times; 0 keeps the figures only, and it stands for its own block only)
T0808
G97 S800 M03
G00 X0 Z5.
G81 Z-4. R-3. F.1 K2 (expect rapid Z2 pass 1) (expect feed Z-4) (expect rapid Z5) (expect rapid Z2 pass 2) (expect feed Z-4) (expect rapid Z5)
Z-6. K0 (expect no move)
X0 L1 (expect rapid Z2) (expect feed Z-6) (expect rapid Z5)
X0 K1.5 (expect finding repeats-not-whole at 4) (expect rapid Z2) (expect feed Z-6) (expect rapid Z5)
G80
G00 X80.
M30
