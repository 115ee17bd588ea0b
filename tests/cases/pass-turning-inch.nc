(The taper figures above in inches: X58 Z-30 R-4 from X62 Z2, and the next pass)
G20
T0101
G97 S1000 M03
G00 X2.4409449 Z.0787402
G90 X2.2834646 Z-1.1811024 R-.1574803 F.008 (expect rapid X50 Z2) (expect feed X58 Z-30 F0.2032) (expect feed X62 Z-30) (expect rapid X62 Z2)
X2.2047244 (expect rapid X48 Z2) (expect feed X56 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
G00 X3.
M30
