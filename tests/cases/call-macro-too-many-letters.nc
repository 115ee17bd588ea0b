O1
T0101
G97 S1000 M03
G00 X62. Z2.
G65 P10 I1. I1. I1. I1. I1. I1. I1. I1. I1. I1. I1. (expect finding too-many-arguments at 49)
M30
O10
M99
