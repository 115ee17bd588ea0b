(M codes that the set-up knows take their time and switch what it says)
T0101
G97 S1000 M03
G00 X62. Z2. (expect state spindle 1 coolant 0)
M63 (expect dwell X62 Z2 S2)
M64 (expect no move)
M07
G00 X61. (expect state coolant 1)
M19 (expect dwell X61 Z2 S1)
G00 X60. (expect state spindle 0)
M33 M64 (expect dwell S0.5)
G00 X59. (expect state spindle 1)
M30
