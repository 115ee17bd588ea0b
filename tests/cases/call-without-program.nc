T0101
G97 S1000 M03
G00 X62. Z2.
M98 (expect finding call-without-program)
M98 P#1 (null: as if not written) (expect finding call-without-program)
M98 P10.5 (expect finding call-without-program at 5)
G65 X1. (expect finding call-without-program)
M98 P5 L0 (expect finding bad-repeats at 8 unproven)
M30
O5
M99
