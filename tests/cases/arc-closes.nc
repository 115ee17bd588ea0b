(Start and end radius may differ by 0.002 mm: NISTIR 6556 sec. 3.5.3.2, row TC040)
T0101
G97 S1000 M03
G00 X20. Z0
G03 X30. Z-4.998 K-5. F.1 (expect arc-ccw X30 Z-4.998)
M30
