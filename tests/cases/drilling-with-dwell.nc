(P in milliseconds; it stays, and P0 takes it away)
T0808
G97 S800 M03
G00 X0 Z10.
G82 Z-5. R-8. P500 F.1 (expect rapid Z2) (expect feed Z-5) (expect dwell Z-5 S0.5) (expect rapid Z10)
Z-6. (expect rapid Z2) (expect feed Z-6) (expect dwell Z-6 S0.5) (expect rapid Z10)
Z-7. P0 (expect rapid Z2) (expect feed Z-7) (expect rapid Z10)
G81 Z-8. P500 (expect finding unknown-word at 10 unproven) (expect rapid Z2) (expect feed Z-8) (expect rapid Z10)
G82 Z-9. P1.5 (expect finding dwell-with-point at 10 unproven) (expect rapid Z2) (expect feed Z-9) (expect dwell S0.0015) (expect rapid Z10)
G82 Z-9. P-5 (expect finding not-above-zero at 10) (expect rapid Z2) (expect feed Z-9) (expect rapid Z10)
G80
G00 X80.
M30
