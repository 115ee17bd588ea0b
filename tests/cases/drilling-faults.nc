T0808
G97 S800 M03
G00 X0 Z5.
G83 Z-10. R-3. Q4000 (expect finding missing-feed)
Z-12. ,R1. F.1 (expect finding corner-in-cycle at 7)
Z-12. Q0 (expect no move) (expect finding not-above-zero at 7)
Q1 Z-60. (expect no move) (expect finding peck-very-small at 1) (expect finding too-many-passes)
G80
G00 X80.
M30
