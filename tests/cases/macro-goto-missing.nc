T0101
G97 S1000 M03
G00 X62. Z2.
GOTO99 (expect finding jump-target-missing)
G01 X0 F.2 (the trial ends where the control stops) (expect no move)
M30
