(A groove in a bore: the same outwards)
T0404
G97 S600 M03
G00 X20. Z5.
Z-20.
G75 R.5
G75 X26. P2000 F.05 (expect feed X24 Z-20) (expect rapid X23) (expect feed X26) (expect rapid X20)
G00 Z50.
M30
