(The case roughing.nc in inches, roughly)
G20 T0101
G97 S1000 M03
G00 X1.6 Z.1
G71 U.1 R.04
G71 P10 Q20 U.02 W.004 F.012 (expect rapid X35.56 Z2.54 pass 1) (expect feed X35.56 Z-20.218 pass 1) (expect feed X37.592 Z-19.202 pass 1) (expect rapid X37.592 Z2.54 pass 1) (expect rapid X30.988 Z2.642 pass 2) (expect rapid X40.64 Z2.54 pass 2)
N10 G00 X1.2 (expect no move)
G01 Z-.8 (expect feed X30.988 Z-20.218 pass 2)
N20 X1.6 (expect feed X41.148 Z-20.218 pass 2)
M30
