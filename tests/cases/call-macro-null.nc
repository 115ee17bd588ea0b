(A word not given is null in the macro)
O1
T0101
G97 S1000 M03
G00 X62. Z2.
G65 P10 Z#1 (expect finding word-without-value)
M30
O10
IF[#24NE#0]GOTO99
IF[#26NE#0]GOTO99
G00 X50. Z#26 (expect rapid X50 Z2) (expect finding word-without-value)
N99 M99
