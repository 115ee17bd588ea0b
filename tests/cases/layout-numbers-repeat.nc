(Search numbers may repeat and run backwards)
N100 T0101
N90 G97 S1000 M03
N100 G00 X62. Z2. (expect rapid X62 Z2)
N1 X60. (expect rapid X60)
N1 X58. (expect rapid X58)
N0 M30 (expect end)
