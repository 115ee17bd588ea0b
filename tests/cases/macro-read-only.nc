T0101
G97 S1000 M03
G00 X62. Z2.
#4001=1 (expect finding read-only-variable)
#5001=0 (expect finding read-only-variable)
M30
