(Nose radius and tip number that compensation then uses: at X20 the nose of 0.4 leads by its radius)
G10 P10001 R.4 Q3 (expect no move)
T0101
G97 S1000 M03
G00 X30. Z2.
G42 G00 X20. (expect rapid) (expect finding nose-radius-differs at 1)
G01 Z-20. F.2 (expect feed)
G40 X40. (expect feed)
G10 P10001 Q12 (expect finding no-such-tip at 12)
M30
