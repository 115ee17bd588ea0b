(G74 on the axis without X and P: pecks along Z. TC065, from memory)
T0808
G97 S800 M03
G00 X0 Z2.
G74 R1. (expect no move)
G74 Z-18. Q8000 F.1 (expect feed X0 Z-6 F0.1 pass 1) (expect rapid Z-5 pass 1) (expect feed Z-14 pass 2) (expect rapid Z-13 pass 2) (expect feed Z-18 pass 3) (expect rapid X0 Z2 pass 3)
G00 Z50. (expect rapid X0 Z50 pass 0)
M30
