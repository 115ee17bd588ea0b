(Under G91 R counts from the start and Z from R; U and W are no axis words)
(option system-b)
T0808
G97 G95 S800 M03
G90 G00 X0 Z10.
G91 G81 Z-10. R-8. F.1 (expect rapid Z2) (expect feed Z-8) (expect rapid Z10)
G90 Z-9. (expect rapid Z2) (expect feed Z-9) (expect rapid Z10)
Z-9. W-3. (expect finding unknown-word at 6 unproven) (expect rapid Z2) (expect feed Z-9) (expect rapid Z10)
R3. Z-9. (expect rapid Z3) (expect feed Z-9) (expect rapid Z10)
G80
G00 X80.
M30
