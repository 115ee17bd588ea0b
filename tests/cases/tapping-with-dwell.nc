T0909
G97 S300 M03
G00 X0 Z10.
G84 Z-20. R-5. P500 F1.75 (expect rapid Z5) (expect thread Z-20) (expect dwell S0.5) (expect thread Z5) (expect rapid Z10)
G80
M30
