(The nose radius is in mm whatever the units: 0.8 mm are 0.0315 inch)
G20
T0101
G97 S1000 M03
G00 X2.4 Z.1
G42 G01 X2. F.008 (expect feed X50.8 Z1.74)
Z-.5 (expect feed X50.8 Z-13.5)
G40 X2.4
M30
