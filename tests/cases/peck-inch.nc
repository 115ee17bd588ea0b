(Ten-thousandths of an inch: Q2000 is 5.08 mm)
G20
T0808
G97 S800 M03
G00 X0 Z.1
G74 R.02
G74 Z-.2 Q2000 F.004 (expect feed X0 Z-2.54) (expect rapid Z-2.032) (expect feed Z-5.08) (expect rapid Z2.54)
G00 Z2.
M30
