(Taper at 150 degrees up to X30, then two lines that cross at X30 Z-20 with a fillet of 2 between: tangent length 2 tan 22.5)
(= 0.828. One roughing pass leaves the shape to the cut along it)
T0101
G97 S1000 M03
G00 X62. Z2.
G71 U20. R.5
G71 P10 Q20 U0 W0 F.3
N10 G00 X20.
G01 Z0 F.1 (expect feed X20 Z0 F0.3) (expect feed X20 Z0 F0.1)
X30. A150. (expect feed X30 Z-8.66) (expect feed X30 Z-8.66 F0.1)
A180. ,R2. (expect feed X30 Z-19.172) (expect arc-cw X31.172 Z-20.586) (expect feed X30 Z-19.172) (expect arc-cw X31.172 Z-20.586)
N20 X60. Z-35. A135. (expect feed X60 Z-35) (expect feed X60 Z-35)
G00 X62. Z2.
G70 P10 Q20
M30
