T0101
G97 S1000
M03 M08
G00 X62. Z2. (expect state spindle 1 coolant 1)
M05 M09 G00 X70. (both before the move: NISTIR 6556 table 8, row TC039) (expect state spindle 0 coolant 0)
M30
