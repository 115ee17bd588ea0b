(option offset-cancel-wear)
(T0100 drops the wear and keeps the length: offset 11 has wear X0.1 Z0.02)
T0111
G97 S1000 M03
G00 X50. Z2. (expect rapid X50 Z2)
T0100 (expect no move)
G00 Z5. (expect rapid X50.1 Z5)
M30
