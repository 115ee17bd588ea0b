(A hole beside the axis or from the side needs a driven tool)
T0808
G97 S800 M03
G00 X30. Z5.
G81 Z-10. R-3. F.1 (expect finding hole-beside-axis unproven) (expect rapid Z2) (expect feed X30 Z-10) (expect rapid Z5)
G80
G00 X80.
G87 X10. R-5. Q3000 (expect finding unknown-code at 1 unproven) (expect no move)
G00 X80.
M30
