(G1 is G01; a number within 0.0001 of a whole one counts as whole: NISTIR 6556 sec. 3.3.2.1, row TC006)
T0101
G97 S1000 M3.00005
G0 X62. Z2. (expect state spindle 1)
G1 X60. F.2 (expect feed X60 Z2)
G001 X58. (expect feed X58 Z2)
G1.0 X56. (expect feed X56 Z2)
M30
