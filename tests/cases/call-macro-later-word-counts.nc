(#7 is the second I and D as well: the later word stays)
O1
T0101
G97 S1000 M03
G00 X62. Z2.
G65 P10 A1. B2. I-3. I4. D45.
M30
O10
G00 X#7 (expect rapid X45)
M99
