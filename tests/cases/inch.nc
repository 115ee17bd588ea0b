G20
T0101
G97 S1000 M03
G00 X2.5 Z.1 (expect rapid X63.5 Z2.54) (expect state inches 1)
G01 Z-1. F.01 (expect feed X63.5 Z-25.4 F0.254)
G02 X3. Z-1.25 R.25 (expect arc-cw X76.2 Z-31.75 I6.35 K0)
G21
G01 X80. F.2 (expect feed X80 Z-31.75 F0.2) (expect state inches 0)
M30
