T0101
G97 S1000 M03
G00 X62. Z2.
G00 X50. #1=5 (expect finding words-beside-statement at 1 unproven) (expect no move)
G00 X48. IF[#1EQ5]GOTO10 (expect finding words-beside-statement unproven) (expect no move)
N10 M30
