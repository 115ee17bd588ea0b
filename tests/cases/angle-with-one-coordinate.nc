(From +Z, anticlockwise: 180 towards the chuck, 90 outwards. A rise of 5 on radius at 30 degrees is 5 / tan 30 long)
T0101
G97 S1000 M03
G00 X20. Z0
G01 X30. A150. F.2 (expect feed X30 Z-8.660)
Z-20. A180. (expect feed X30 Z-20)
X40. A90. (expect feed X40 Z-20)
Z-30. ,A135. (expect feed X60 Z-30)
Z-40. A210. (expect feed X48.453 Z-40)
X40. A-150. (expect feed X40 Z-47.321)
M30
