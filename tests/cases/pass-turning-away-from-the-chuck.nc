(Back turning: Z of the end lies farther from the chuck than the start)
T0101
G97 S1000 M03
G00 X62. Z-40.
G90 X56. Z-10. F.2 (expect rapid X56 Z-40) (expect feed X56 Z-10) (expect feed X62 Z-10) (expect rapid X62 Z-40)
G00 X80.
M30
