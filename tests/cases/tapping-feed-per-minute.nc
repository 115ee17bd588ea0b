(F is the speed times the pitch: 300 x 1.75 = 525)
T0909
G97 S300 M03
G00 X0 Z10.
G98 G84 Z-20. R-5. F525. (expect rapid Z5) (expect thread Z-20 F1.75) (expect thread Z5) (expect rapid Z10)
F500. Z-22. (expect rapid Z5) (expect thread Z-22 F1.667) (expect thread Z5) (expect rapid Z10) (expect finding tap-lead-differs at 1)
G80
M30
