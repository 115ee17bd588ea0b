%
O0012(PIN)
N10 T0101
N20 G97 S1000 M03
N30 G00 X62. Z2. (expect rapid X62 Z2)
N40 M30 (expect end)
%
G01 X0 Z-500. (behind the tape's end, not carried out) (expect no move)
