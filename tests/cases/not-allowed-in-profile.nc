T0101
G97 S1000 M03
G00 X42. Z2.
G70 P10 Q20
N10 G00 X30.
G28 U0 W0 (expect no move) (expect finding not-allowed-in-profile at 1 unproven)
T0202 (expect no move) (expect finding not-allowed-in-profile at 1 unproven)
G70 P10 Q20 (expect no move) (expect finding not-allowed-in-profile at 1 unproven)
G01 Z-20. F.1 (expect feed X30 Z-20)
N20 X42.
M30
