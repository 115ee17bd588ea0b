(Leads shorter than the nose radius of 0.8)
T0101
G97 S1000 M03
G00 X51. Z2.
G42 G01 X50. F.2 (expect finding compensation-short-lead at 1) (expect feed X50 Z1.2)
Z-10. (expect feed X50 Z-10.8)
G40 X51. (expect finding compensation-short-lead at 1) (expect feed X51 Z-10)
M30
