T0101
G97 S1000 M03
G00 X62. Z2.
G04 X1.5 (expect dwell X62 Z2 S1.5)
G04 U.5 (expect dwell S0.5)
G04 P750 (expect dwell S0.75)
G4 X0 (expect no move) (expect finding not-above-zero)
G04 (expect no move) (expect finding dwell-without-time)
G04 P1.5 (expect dwell S0.0015) (expect finding dwell-with-point at 5 unproven)
G01 X60. F.2 (expect feed X60)
M30
