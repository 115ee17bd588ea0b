(F and S of the profile count for the finish cut; then back to where it began)
T0101
G97 S1000 M03
G00 X42. Z2.
G70 P10 Q20 F.3 (expect rapid X42 Z2)
N10 G00 X30. (expect rapid X30 Z2 pass 1)
G01 Z-20. F.1 (expect feed X30 Z-20 F0.1)
N20 X42. F.25 (expect feed X42 Z-20 F0.25)
G00 Z5. (expect rapid X42 Z5)
M30
