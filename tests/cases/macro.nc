T0101
G97 S1000 M03
G00 X62. Z2.
#1=20. (expect finding macro-not-carried-out unproven)
G01 X#1 Z-5. F.2 (expect no move) (expect finding expression-not-carried-out at 5 unproven)
IF[#1EQ2]GOTO100 (expect finding macro-not-carried-out unproven)
G01 X58. (expect feed X58 Z2 F0.2)
M30
