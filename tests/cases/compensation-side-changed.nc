(From one side to the other between moves that stand square to each other: controls differ, so nothing is proved)
T0101
G97 S1000 M03
G00 X62. Z2.
G42 G01 X58. F.2
Z-10. (its end, then across) (expect feed X58 Z-10.8 comp right) (expect feed X56.4 Z-11.6 comp right)
G41 X62. (expect feed X60.4 Z-11.6 comp left) (expect finding compensation-side-changed unproven) (expect finding compensation-wrong-side)
G40 G00 Z2. (expect rapid X62 Z2 comp off)
M30
