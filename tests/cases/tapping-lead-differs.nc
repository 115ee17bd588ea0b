T0909
G97 S300 M03
G00 X0 Z10.
G84 Z-20. R-5. F1.5 (expect rapid Z5) (expect thread Z-20 F1.5) (expect thread Z5) (expect rapid Z10) (expect finding tap-lead-differs at 16)
G80
M30
