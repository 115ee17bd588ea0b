(A diameter held in a variable)
T0101
G97 S1000 M03
G00 X62. Z2.
#1=20.
G01 X#1 Z-5. F.2 (expect feed X20 Z-5 F0.2)
IF[#1EQ2]GOTO100
G01 X58. (expect feed X58 Z-5 F0.2)
N100 M30 (expect end)
