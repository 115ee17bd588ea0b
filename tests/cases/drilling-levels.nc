(Where the retract point lies wrong)
T0808
G97 S800 M03
G00 X0 Z5.
G81 Z-10. R2. F.1 (expect finding retract-point-behind-start at 11 unproven) (expect rapid Z7) (expect feed Z-10) (expect rapid Z5)
R-20. Z-10. (expect no move) (expect finding drill-levels at 1)
G80
G00 X0 Z5.
G81 R-2. F.1 (expect no move) (expect finding cycle-without-axes at 1)
X0 (expect no move) (expect finding drill-without-depth)
G80
G00 X80.
M30
