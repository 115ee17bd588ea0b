(G65: the words become the local variables of the macro)
O1
T0101
G97 S1000 M03
G00 X62. Z2.
#24=99.
G65 P10 X50. Z-10. F.2
G65 P10 X40. Z-8. F.1 L2
G00 X#24 (the caller's own are untouched) (expect rapid X99)
M30
O10
G00 X#24 (expect rapid X50) (expect rapid X40) (expect rapid X40)
G01 Z#26 F#9 (expect feed X50 Z-10 F0.2) (expect feed X40 Z-8 F0.1) (expect feed X40 Z-8 F0.1)
G00 X[#24+2] Z2.
#24=1.
M99
