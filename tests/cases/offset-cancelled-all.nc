(option offset-cancel-all)
(T0100 drops the whole length: the turret reference point itself is then programmed)
T0101
G97 S1000 M03
G00 X50. Z2. (expect rapid X50 Z2)
T0100 (expect no move)
G00 Z80. (from X50 of the tip, the reference point is 120 of diameter farther out) (expect rapid X170 Z80)
G53 X0 Z0 (expect rapid X360 Z270)
M30
