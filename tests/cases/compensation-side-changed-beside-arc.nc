(A change of side at an arc is not proved, tangent or not)
T0101
G97 S1000 M03
G00 X62. Z2.
G42 G01 X50. F.2
Z-10.
G41 G02 X56. Z-13. R3. (expect finding compensation-side-changed at 1 unproven) (expect finding compensation-wrong-side)
G40 G00 X62. (expect rapid X62 Z-13)
M30
