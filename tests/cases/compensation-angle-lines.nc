(A line whose end the next one gives is compensated like any other)
T0101
G97 S1000 M03
G00 X62. Z2.
G42 G01 X20. F.2
A180. (ends at X20 Z-15; an inside corner of 45 degrees) (expect feed X20 Z-15.469 comp right)
X50. Z-30. A135. (expect feed X49.531 Z-30.234 comp right)
G40 G00 X62. (expect rapid X62 Z-30 comp off)
M30
