(NISTIR 6556 sec. 3.3.3 and 3.3.5: all are read first, the last one stays)
T0101
G97 S1000 M03
G00 X62. Z2.
#1=50. #2=40.
G00 X#1 (expect rapid X50)
X#2 (expect rapid X40)
#1=30. #1=35.
X#1 (expect rapid X35)
#1=20. #2=#1 (expect finding controls-calculate-otherwise unproven)
X#2 (expect no move)
M30
