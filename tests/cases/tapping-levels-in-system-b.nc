(option system-b)
(R is a position; G99 comes back to it only)
T0909
G95 G97 S300 M03
G00 X0 Z10.
G99 G84 Z-20. R3. F1.75 (expect rapid Z3) (expect thread Z-20) (expect thread Z3)
G80
M30
