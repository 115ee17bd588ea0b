(Signals, clocks: a trial has none)
T0101
G97 S1000 M03
G00 X62. Z2.
#1=#1000 (expect finding variable-not-known unproven)
#2=#3001 (expect finding variable-not-known unproven)
#3=#3011 (expect finding variable-not-known unproven)
#1100=1 (expect finding variable-not-known unproven)
M30
