(60 degrees: a pass 0.5 deep starts 0.5 tan 30 = 0.289 further on; P..10..: pull-out of one lead)
T1010
G97 S800 M03
G00 X28. Z5.
G76 P011060 Q50 R0
G76 X19. Z-20. P500 Q500 F1.5 (expect rapid X19 Z4.711) (expect thread X19 Z-18.5) (expect thread X22 Z-20) (expect rapid X28 Z-20) (expect rapid X28 Z5) (expect rapid X19 Z4.711) (expect thread X19 Z-18.5) (expect thread X22 Z-20) (expect rapid X28 Z-20) (expect rapid X28 Z5)
M30
