T101 (expect index S0.6)
G97 S1000 M03
G00 X62. Z2.
T0101 (no change, no index) (expect no move)
T0404 M06 (M06 beside a T word is harmless) (expect index)
T2 (expect index) (expect finding short-tool-word unproven)
T0011 (a new offset, the station stays) (expect no move)
M30
