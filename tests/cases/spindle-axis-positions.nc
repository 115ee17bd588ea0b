(C in degrees, H incremental; a move of C alone stands and turns)
T0808
M05
G00 X30. Z5. C90. (expect finding c-axis-not-cut at 14 unproven) (expect rapid X30 Z5)
G01 Z-5. F.1 (expect feed X30 Z-5)
G00 Z5.
H90. (expect dwell X30 Z5 S0)
G98 G01 H30. F360. (expect dwell X30 Z5 S5)
C0 (expect dwell S35)
C0 (expect no move)
G00 X80. C45. Z9. (expect rapid X80 Z9)
M30
