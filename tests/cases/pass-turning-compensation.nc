T0101
G97 S1000 M03
G00 X64. Z4.
G42 G00 X62. Z2. F.2
G90 X56. Z-30. (expect finding compensation-in-cycle at 1 unproven) (expect rapid X56 comp off) (expect feed X56 Z-30 comp off) (expect feed) (expect rapid)
G00 X80.
M30
