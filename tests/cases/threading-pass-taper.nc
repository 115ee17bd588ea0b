(R is the radius at the start less that at the end: 1 in 16 over 25 is 0.781 on radius)
T1010
G97 S500 M03
G00 X34. Z5.
G92 X26. Z-20. R-.781 F2. (expect rapid X24.438 Z5) (expect thread X25.875 Z-18) (expect thread X29.875 Z-20) (expect rapid X34 Z-20) (expect rapid X34 Z5)
X25.6 (expect rapid X24.038 Z5) (expect thread X25.475 Z-18) (expect thread X29.475 Z-20) (expect rapid X34 Z-20) (expect rapid X34 Z5)
G00 Z50.
M30
