(The same with steps of 4 mm: rings of 1 mm stay)
(tools face-groove)
G21 G40 G99
G97 S500 M03
T0101
G00 X44. Z3.
G74 R.5
G74 X36. Z-5. P4000 Q2000 F.08 (expect finding groove-step-above-width step_mm 4 within 0.001)
G00 Z5.
G28 U0 W0
M30
