(R beside the end point is the relief at the bottom, never done at the first plunge)
T0101
G97 S800 M03
G00 X40. Z1.
G74 X36. Z-3. P2000 Q9000 R.3 F.1 (expect finding relief-at-first-plunge at 27 unproven) (expect feed X40 Z-3) (expect rapid X40 Z1) (expect rapid X36 Z1) (expect feed X36 Z-3) (expect feed X36.6 Z-3) (expect rapid X36.6 Z1) (expect rapid X40 Z1)
G00 Z50.
T0808
G00 X0 Z2.
G74 Z-8. Q10000 R1. (expect finding relief-in-single-plunge at 17 unproven) (expect feed Z-8) (expect rapid Z2)
G74 Z-8. Q10000 R-1. (expect finding not-above-zero at 17) (expect feed Z-8) (expect rapid Z2)
G00 Z50.
M30
