T0404
G97 S1000 M03
G00 X20. Z2.
G42 X30. (expect finding compensation-wrong-side at 1)
G01 Z-20. F.1
G40 X20.
G00 Z2.
M30
