(option radius-programming)
(The allowance U of a cycle is a radius, too: the last pass and the cut along the profile leave 0.5 on radius)
T0101
G97 S1000 M03
G00 X31. Z2.
G71 U25. R.5
G71 P10 Q20 U.5 W0 F.3
N10 G00 X10.
G01 Z-20. F.1 (expect feed X21 Z-20)
N20 X31. (expect feed X63 Z-20)
M30
