(Type II: a round hollow in the face)
T0101
G97 S1000 M03
G00 X62. Z1.
G72 W1.5 R.5
G72 P10 Q20 U0 W0 F.2 (expect rapid X62. Z0. pass 1) (expect feed X27.464 Z-0.5 pass 1) (expect feed X0. Z1. pass 1) (expect feed X1. Z1.5 pass 1) (expect rapid X62. Z1.5 pass 2) (expect rapid X62. Z0. pass 2) (expect rapid X62. Z1. pass 2)
N10 G00 U0 Z0 (expect no move)
G01 X50. (expect feed X50. Z0. pass 1) (expect feed X50. Z0. pass 2)
G03 X26. Z0 R10. (expect arc-ccw X48.536 Z-0.5 I-6. K8. pass 1) (expect arc-ccw X26. Z0. I5.268 K8.5 pass 1) (expect arc-ccw X26. Z0. I-6. K8. pass 2)
N20 G01 X0 (expect feed X0. Z0. pass 1) (expect feed X0. Z0. pass 2)
M30
