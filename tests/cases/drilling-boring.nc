(G85: back to R at feed; a boring bar works off the axis)
T0404
G97 S800 M03
G00 X20. Z5.
G85 X22. Z-14. R-3. F.1 (expect rapid X22 Z5) (expect rapid X22 Z2) (expect feed X22 Z-14) (expect feed X22 Z2) (expect rapid X22 Z5)
G80
G00 Z50.
M30
