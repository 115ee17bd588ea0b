(Several plunges across, from X40 inwards by 2.5 on radius; the last step is what is left)
T0101
G97 S800 M03
G00 X40. Z1.
G74 R.5
G74 X28. Z-3. P2500 Q2000 F.1 (expect feed X40 Z-1 pass 1) (expect rapid X40 Z-0.5) (expect feed X40 Z-3 pass 2) (expect rapid X40 Z1) (expect rapid X35 Z1) (expect feed X35 Z-1 pass 3) (expect rapid X35 Z-0.5) (expect feed X35 Z-3) (expect rapid X35 Z1) (expect rapid X30 Z1) (expect feed X30 Z-1) (expect rapid X30 Z-0.5) (expect feed X30 Z-3) (expect rapid X30 Z1) (expect rapid X28 Z1) (expect feed X28 Z-1) (expect rapid X28 Z-0.5) (expect feed X28 Z-3) (expect rapid X28 Z1) (expect rapid X40 Z1 pass 8)
G00 Z50.
M30
