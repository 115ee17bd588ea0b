(No R: 0.5, as set up; R0 goes back along the surface it has cut)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U3.
G71 P10 Q20 U0 W0 F.3 (expect rapid X36. Z2. pass 1) (expect feed X36. Z-20. pass 1) (expect feed X37. Z-19.5 pass 1) (expect rapid X37. Z2. pass 1) (expect rapid X31. Z2. pass 2) (expect rapid X42. Z2. pass 2)
N10 G00 X31.
G01 Z-20.
N20 X42.
G71 U3. R0
G71 P30 Q40 U0 W0 F.3 (expect rapid X36. Z2. pass 1) (expect feed X36. Z-20. pass 1) (expect rapid X36. Z2. pass 1) (expect rapid X31. Z2. pass 2) (expect rapid X42. Z2. pass 2)
N30 G00 X31.
G01 Z-20.
N40 X42.
M30
