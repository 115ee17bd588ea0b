(Away from the chuck, out of a groove)
T1010
G97 S500 M03
G00 X34. Z-25.
G92 X23. Z5. F1.5 (expect rapid X23 Z-25) (expect thread X23 Z3.5) (expect thread X26 Z5) (expect rapid X34 Z5) (expect rapid X34 Z-25)
G00 Z50.
M30
