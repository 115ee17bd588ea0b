(A word whose value is null counts as not written: common practice, no source)
T0101
G97 S1000 M03
G00 X62. Z2.
G01 X50. Z#1 F.2 (expect feed X50 Z2) (expect finding word-without-value)
#1=0
G01 X48. Z#1 (zero is a value) (expect feed X48 Z0)
#1=#0
G01 X46. Z#1 (cleared again) (expect feed X46 Z0) (expect finding word-without-value)
X#2 Z#2 (nothing is left of this block) (expect no move) (expect finding word-without-value)
X[#2+1.] (in a calculation null counts as 0) (expect feed X1)
M30
