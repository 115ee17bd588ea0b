(The end lies outside the start: pull-out and retract lead inwards)
T1111
G97 S500 M03
G00 X20. Z5.
G92 X24.4 Z-15. F1.5 (expect rapid X24.4 Z5) (expect thread X24.4 Z-13.5) (expect thread X21.4 Z-15) (expect rapid X20 Z-15) (expect rapid X20 Z5)
G00 Z50.
M30
