(Met without a call it is cut as it stands, then it is finished once more)
T0101
G97 S1000 M03
G00 X42. Z2.
N10 G00 X30. (expect rapid X30 Z2 pass 0) (expect rapid X30 Z2 pass 1)
G01 Z-20. F.1 (expect feed X30 Z-20 pass 0) (expect feed X30 Z-20 pass 1)
N20 X42. (expect feed X42 Z-20 pass 0) (expect feed X42 Z-20 pass 1)
G00 Z2. (expect rapid X42 Z2)
G70 P10 Q20 (expect rapid X42 Z2)
M30
