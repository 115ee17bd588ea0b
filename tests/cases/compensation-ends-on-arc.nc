(and goes off with one)
T0101
G97 S1000 M03
G00 X62. Z2.
G42 G01 X20. F.2
Z-10. (expect feed X20 Z-10.8)
G40 G02 X24. Z-12. R2. (expect finding compensation-ends-on-arc) (expect feed X24 Z-12 comp off)
M30
