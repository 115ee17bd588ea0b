(Q with every pass of the second start)
T1010
G97 S500 M03
G00 X34. Z8.
G92 X23. Z-20. F3. (expect rapid X23) (expect thread X23 Z-17 Q0) (expect thread X29 Z-20) (expect rapid X34) (expect rapid Z8)
X23. Q180000 (expect rapid X23) (expect thread X23 Z-17 Q180) (expect thread X29 Z-20 Q300) (expect rapid X34) (expect rapid Z8)
X22.5 (expect rapid X22.5) (expect thread X22.5 Z-17 Q0) (expect thread X28.5 Z-20) (expect rapid X34) (expect rapid Z8)
G00 Z50.
M30
