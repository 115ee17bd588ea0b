(As above, but the clearance is only that of the insert: a note)
(tools boring)
G21 G40 G99
G97 S1000 M03
T0202
G00 X0 Z3.
G01 Z-30. F.15
G00 Z3.
G28 U0 W0
G97 S800 M03
T0505
G00 X30. Z3.
G01 Z-20. F.1 (expect note flank-rubs-in-bore into_mm 0.0458 within 0.0001)
X28.
G00 Z3.
G28 U0 W0
M30
