(Two codes of one group in a block: NISTIR 6556 sec. 3.3.5, row TC008)
T0101
G97 S1000 M03 M05 (expect finding codes-conflict at 15)
G00 G01 X62. Z2. F.2 (expect feed X62 Z2) (expect finding codes-conflict at 5)
G20 G21 (expect finding codes-conflict at 5)
M08 M09 (expect finding codes-conflict at 5)
G98 G99 (expect finding codes-conflict at 5)
G00 X64. (expect rapid X64)
M30
