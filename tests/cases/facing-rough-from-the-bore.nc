(From a bore outwards: X grows along the profile, U is below zero)
T0404
G97 S1000 M03
G00 X18. Z2.
G72 W3. R.5
G72 P10 Q20 U-.4 W.1 F.2 (expect rapid X18. Z-1. pass 1) (expect feed X35.6 Z-1. pass 1) (expect feed X34.6 Z-0.5 pass 1) (expect rapid X18. Z-0.5 pass 1) (expect rapid X18. Z-4. pass 2) (expect feed X32.45 Z-4. pass 2) (expect feed X31.45 Z-3.5 pass 2) (expect rapid X18. Z-3.5 pass 2) (expect rapid X17.6 Z-5.9 pass 3) (expect rapid X18. Z2. pass 3)
N10 G00 Z-6. (expect no move)
G01 X30. (expect feed X29.6 Z-5.9 pass 3)
Z-2. X36. (expect feed X35.6 Z-1.9 pass 3)
N20 Z1. (expect feed X35.6 Z1.1 pass 3)
M30
