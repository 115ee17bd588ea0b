(The first line ends where the second crosses it, worked out by hand: from X20 Z0 at 170, from X50 Z-30 at 120)
(From X20 Z0 along the cylinder, then back from X50 Z-30 at 135 degrees: 15 before the end, a rise of 15)
T0101
G97 S1000 M03
G00 X20. Z0
G01 A170. F.2 (expect feed X28.378 Z-23.758 F0.2)
X50. Z-30. A120. F.1 (expect feed X50 Z-30 F0.1)
G00 X20. (expect rapid X20)
Z0 (expect rapid Z0)
G01 ,A180. F.2 (expect feed X20 Z-15)
X50. Z-30. ,A135. (expect feed X50 Z-30)
M30
