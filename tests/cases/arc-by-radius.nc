(Centre from R, worked example: from X10 Z-20 to X20 Z-25, R5: centre X20 Z-20. NISTIR 6556 sec. 3.5.3.1)
T0101
G97 S1000 M03
G00 X10. Z-20.
G02 X20. Z-25. R5. F.1 (expect arc-cw X20 Z-25 I5 K0)
G03 X30. Z-30. R5. (expect arc-ccw X30 Z-30 I0 K-5)
M30
