T0101
G97 S1000 M03
G00 X62. Z2.
G90 X58. Z-30. F.2
G71 P10 Q20 U.4 W.1 D2. (expect rapid X58 Z2) (expect feed X58 Z-29.9) (expect feed X59 Z-29.4) (expect rapid X59 Z2) (expect rapid X56.4 Z2.1) (expect rapid X62 Z2)
N10 G00 X56.
G01 Z-30. (expect feed X56.4 Z-29.9)
G90 X50. Z-10. (expect finding not-allowed-in-profile unproven)
N20 G01 X60. (expect feed X60.4 Z-29.9)
G00 X62.
M30
