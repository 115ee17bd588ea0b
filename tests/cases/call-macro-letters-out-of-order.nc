O1
T0101
G97 S1000 M03
G00 X62. Z2.
G65 P10 K40. I50. (expect finding argument-order unproven)
M30
O10
G00 X#6 (expect rapid X40)
X#7 (expect rapid X50)
M99
