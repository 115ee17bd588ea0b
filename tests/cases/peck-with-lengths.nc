(The one-block form with I and K as lengths)
T0101
G97 S800 M03
G00 X40. Z1.
G74 X36. Z-3. I2. K5. F.1 (expect feed X40 Z-3) (expect rapid X40 Z1) (expect rapid X36 Z1) (expect feed X36 Z-3) (expect rapid X36 Z1) (expect rapid X40 Z1)
G74 X36. Z-3. I2. K-5. (expect no move) (expect finding not-above-zero at 19)
G00 Z50.
M30
