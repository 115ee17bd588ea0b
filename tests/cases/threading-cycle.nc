(0.92 deep, first pass 0.46: by the square root 0.46, 0.6505, 0.7967, then 0.9 with 0.02 left; finish pass 0.92)
(P02 two finish passes, 00 no pull-out, 00 straight in)
T1010
G97 S800 M03
G00 X28. Z5.
G76 P020000 Q50 R.02 (expect no move)
G76 X18.16 Z-20. P920 Q460 F1.5 (expect rapid X19.08 Z5 pass 1) (expect thread X19.08 Z-20 F1.5 pass 1) (expect rapid X28 Z-20 pass 1) (expect rapid X28 Z5 pass 1) (expect rapid X18.699 Z5 pass 2) (expect thread X18.699 Z-20 pass 2) (expect rapid X28 Z-20) (expect rapid X28 Z5) (expect rapid X18.407 Z5 pass 3) (expect thread X18.407 Z-20) (expect rapid X28 Z-20) (expect rapid X28 Z5) (expect rapid X18.2 Z5 pass 4) (expect thread X18.2 Z-20) (expect rapid X28 Z-20) (expect rapid X28 Z5) (expect rapid X18.16 Z5 pass 5) (expect thread X18.16 Z-20) (expect rapid X28 Z-20) (expect rapid X28 Z5) (expect rapid X18.16 Z5 pass 6) (expect thread X18.16 Z-20) (expect rapid X28 Z-20) (expect rapid X28 Z5)
M30
