T0101
G97 S1000 M03
G00 X62. Z2.
G01 X Z1. F.2 (expect feed X62 Z1) (expect finding letter-without-number at 5)
G01 X60,5 (expect feed X60) (expect finding decimal-comma at 8) (expect finding length-without-point at 5)
G01 Z-1.5.2 (expect feed Z-1.5) (expect finding second-decimal-point at 10)
G01 X62. ? (expect feed X62) (expect finding bad-character at 10)
N1.5 G01 X63. (expect feed X63) (expect finding bad-sequence-number at 1)
M30
