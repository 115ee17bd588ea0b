T0101
G97S1000M03
G00X62.Z2.(expect rapid X62 Z2)
G01X20.Z-5F.2(expect feed X20 Z-5 F0.2)(expect finding length-without-point at 8)
G1X+20.Z-.5F2(expect feed X20 Z-0.5 F2)
M30
