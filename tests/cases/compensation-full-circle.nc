(A full circle runs as two half turns, here a ring about Z-10 X80 seen from outside)
T0101
G97 S1000 M03
G00 X80. Z5.
G42 G01 Z0 F.2
G03 Z0 X80. I0 K-10. (expect arc-ccw X78.4 Z-21.6 K-10.8) (expect arc-ccw X78.4 Z0)
G40 G00 Z5.
M30
