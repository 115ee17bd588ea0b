(The first cut is 66 outside)
(tools face-groove)
G21 G40 G99
G97 S500 M03
T0101
G00 X60. Z3.
G01 Z-5. F.08 (expect finding face-groove-diameter outer_diameter_mm 66 within 0.001)
G00 Z5.
G28 U0 W0
M30
