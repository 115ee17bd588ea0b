(Every way in which a word can take its number from variables)
T0101
G97 S1000 M03
G00 X62. Z2.
#1=40.
#2=1
G00 X#1 (expect rapid X40 Z2)
X-#1 (expect rapid X-40)
X+#1 (expect rapid X40)
X[#1+2] (expect rapid X42)
X[#1+2*[#2+1]] (expect rapid X44)
X##2 (#1 by way of #2) (expect rapid X40)
X#[#2] Z1. (expect rapid X40 Z1)
X-[#1-2.] (expect rapid X-38)
XABS[-#1] (expect rapid X40)
x#1z-#2 (expect rapid X40 Z-1)
X # 1 Z [ #2 ] (expect rapid X40 Z1)
U[#2*4]W-#2 (expect rapid X44 Z0)
G01 X40. F[#2/4] (expect feed X40 F0.25)
G03 X50. Z-5. R[#1/8] (expect arc-ccw X50 Z-5)
M30
