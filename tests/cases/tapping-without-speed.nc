T0909
G97 M03 (expect finding spindle-code-without-speed)
G00 X0 Z10.
G98 G84 Z-20. R-5. F525. (expect no move) (expect finding tap-without-speed)
G80
M30
