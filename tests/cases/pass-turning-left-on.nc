(Left in force at the end of a section; harmless as long as a movement code comes next)
T0101
G97 S1000 M03
G00 X62. Z2.
G90 X56. Z-30. F.2
G28 U0 W0 (expect finding cycle-left-on at 1)
T0202 (expect finding cycle-left-on at 1)
G00 X62. Z2. (expect rapid X62 Z2)
G90 X54. Z-30.
G28 U0 W0 (expect finding cycle-left-on at 1)
X52. Z-28. (expect finding cycle-runs-on)
G00 X62.
G90 X52. Z-25.
M30 (expect finding cycle-left-on at 1)
