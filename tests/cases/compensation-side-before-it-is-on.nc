(G41 put right by G42 before anything moved: only G42 counts)
T0101
G97 S1000 M03
G00 X62. Z2.
G41
G42
G01 X58. F.2 (expect feed X58 Z1.2 comp right)
Z-10. (expect feed X58 Z-10.8)
G42 (already on)
G40 G00 X62. (expect rapid X62 Z-10 comp off)
G40
M30
