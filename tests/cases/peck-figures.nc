(P and Q count thousandths; what else they say is a finding)
T0808
G97 S800 M03
G00 X0 Z2.
G74 Z-8. F.1 (expect no move) (expect finding missing-peck at 1)
G74 Z-8. Q0 (expect no move) (expect finding not-above-zero at 10)
G74 Z-8. Q-5000 (expect no move) (expect finding not-above-zero at 10)
G74 Z-8. Q5. (expect finding count-with-point at 10 unproven) (expect feed Z-3) (expect rapid Z-2.5) (expect feed Z-8) (expect rapid Z2)
G74 Z2. Q5000 (expect no move) (expect finding cycle-cuts-nothing at 1)
G74 Z1.99 Q5 (expect finding peck-very-small at 11) (expect feed Z1.995) (expect rapid Z2) (expect feed Z1.99) (expect rapid Z2)
G74 Z-90. Q1 (expect no move) (expect finding peck-very-small at 11) (expect finding too-many-passes at 1)
G74 X10. Z-8. Q5000 (expect no move) (expect finding missing-peck at 1)
G00 Z50.
M30
