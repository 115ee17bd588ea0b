(G81: to R at rapid, to Z at feed, back to the start at rapid. In code system A R counts from the start)
T0808
G97 S800 M03
G00 X0 Z10.
G81 Z-20. R-8. F.1 (expect rapid X0 Z2 pass 1) (expect feed X0 Z-20 F0.1 pass 1) (expect rapid X0 Z10 pass 1)
G80 (expect no move)
G00 X80. (expect rapid X80 Z10 pass 0)
M30
