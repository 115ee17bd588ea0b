(All allowances in X are below zero; a pocket and an arc may be in the pattern)
T0404
G97 S1000 M03
G00 X18. Z5.
G73 U-2. W0 R2
G73 P10 Q20 U-.4 W.1 F.2 (expect rapid X13.6 Z5.1 pass 1) (expect rapid X25.6 Z2.1 pass 1) (expect rapid X17.6 Z5.1 pass 2) (expect rapid X29.6 Z2.1 pass 2) (expect rapid X18. Z5. pass 2)
N10 G00 X30. Z2. (expect no move)
G01 Z-10. (expect feed X25.6 Z-9.9 pass 1) (expect feed X29.6 Z-9.9 pass 2)
G02 X26. Z-12. R2. (expect arc-cw X21.6 Z-11.9 I0. K-2. pass 1) (expect arc-cw X25.6 Z-11.9 I0. K-2. pass 2)
G01 X30. Z-15. (expect feed X25.6 Z-14.9 pass 1) (expect feed X29.6 Z-14.9 pass 2)
N20 X20. (expect feed X15.6 Z-14.9 pass 1) (expect feed X19.6 Z-14.9 pass 2)
M30
