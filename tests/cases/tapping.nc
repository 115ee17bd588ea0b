(M12 x 1.75: in, and out with the spindle the other way round)
T0909
G97 S300 M03
G00 X0 Z10.
G84 Z-20. R-5. F1.75 (expect rapid X0 Z5) (expect thread X0 Z-20 F1.75) (expect thread X0 Z5 F1.75) (expect rapid X0 Z10) (expect state spindle 1)
G80
G00 Z20.
M30
