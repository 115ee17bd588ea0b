T0606
G97 S600 M03
G00 X62. Z-20.
G75 X58. Z-22. P9000 Q2000 R.2 F.08 (expect finding relief-at-first-plunge at 28 unproven) (expect feed X58 Z-20) (expect rapid X62 Z-20) (expect rapid X62 Z-22) (expect feed X58 Z-22) (expect feed X58 Z-21.8) (expect rapid X62 Z-21.8) (expect rapid X62 Z-20)
G00 X80.
M30
