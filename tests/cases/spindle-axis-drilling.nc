T0808
M05
G00 X30. Z5. C0 (expect finding c-axis-not-cut at 14 unproven)
G83 Z-10. C90. R-3. Q20000 F.1 (expect finding hole-beside-axis unproven) (expect dwell X30 Z5) (expect rapid Z2) (expect feed Z-10) (expect rapid Z5)
C180. (expect finding hole-beside-axis unproven) (expect dwell X30 Z5) (expect rapid Z2) (expect feed Z-10) (expect rapid Z5)
G80
G00 X80.
M30
