(Plunges beside each other, towards the chuck; W counts from the start)
T0606
G97 S600 M03
G00 X62. Z-20.
G75 R.5
G75 X58. Z-25. P9000 Q2500 F.08 (expect feed X58 Z-20) (expect rapid X62 Z-20) (expect rapid X62 Z-22.5) (expect feed X58 Z-22.5) (expect rapid X62) (expect rapid Z-25) (expect feed X58 Z-25) (expect rapid X62 Z-25) (expect rapid X62 Z-20)
G75 U-4. W3. P9000 Q2500 (expect feed X58 Z-20) (expect rapid X62 Z-20) (expect rapid X62 Z-17.5) (expect feed X58 Z-17.5) (expect rapid X62) (expect rapid Z-17) (expect feed X58 Z-17) (expect rapid X62 Z-17) (expect rapid X62 Z-20)
G00 X80.
M30
