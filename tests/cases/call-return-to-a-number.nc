(M99 P: back to a block of the calling program)
O1
T0101
G97 S1000 M03
G00 X62. Z2.
M98 P2 L5
G00 X1. (jumped over) (expect no move) (expect finding blocks-not-reached)
N50 X60. (expect feed X60)
M30
O2
N50 G01 X58. F.2 (not this one) (expect feed X58)
M99 P50
