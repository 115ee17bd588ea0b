(Compensation comes on with a straight move only)
T0101
G97 S1000 M03
G00 X20. Z2.
G42 G02 X24. Z0 R2. F.2 (expect finding compensation-starts-on-arc) (expect feed X24 Z-0.8 comp right)
G01 Z-10. (expect feed X24 Z-10.8)
G40 X62.
M30
