(A full circle only with a centre: row TC041; it is run as two half turns)
T0101
G97 S1000 M03
G00 X20. Z0
G02 I5. F.1 (expect arc-cw X40 Z0 I5 K0) (expect arc-cw X20 Z0 I-5 K0)
M30
