(option compensate-in-roughing)
(The set-up key: passes go up to the compensated profile; of the move that cancels only its way in Z counts)
T0101
G97 S1000 M03
G00 X62. Z2.
G72 W3. R.5
G72 P10 Q20 U.4 W.1 F.2 (expect rapid X62. Z-1. pass 1) (expect feed X20.4 Z-1. pass 1) (expect feed X21.4 Z-0.5 pass 1) (expect rapid X62. Z-0.5 pass 1) (expect rapid X62. Z-4. pass 2) (expect feed X20.4 Z-4. pass 2) (expect feed X21.4 Z-3.5 pass 2) (expect rapid X62. Z-3.5 pass 2) (expect rapid X60.8 Z-4.9 pass 3) (expect rapid X62. Z2. pass 3)
N10 G00 G41 Z-5. (expect no move)
G01 X20. (expect feed X20.4 Z-4.9 pass 3)
N15 Z0 (expect feed X20.4 Z-0.7 pass 3)
N20 G40 Z2. (expect feed X20.4 Z2.1 pass 3)
M30
