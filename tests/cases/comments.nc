(talk before the first word)
T0101 (rough) M06 (with the block)
G97 S1000 M03 ; behind a semicolon G01 X0
G00 (expect rapid X62 Z2) X62. (in between) Z2.
; a line of talk: G01 X0 Z0
G01 X60. F.2 ;expect feed X60 Z2 F0.2
M30
