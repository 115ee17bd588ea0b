(I, J and K more than once go to #4 #5 #6, #7 #8 #9, …)
O1
T0101
G97 S1000 M03
G00 X62. Z2.
G65 P10 I40. J50. K60. I41. J51. K61. J52.
M30
O10
G00 X#4 (expect rapid X40)
X#5 (expect rapid X50)
X#6 (expect rapid X60)
X#7 (expect rapid X41)
X#8 (expect rapid X51)
X#9 (expect rapid X61)
X#11 (expect rapid X52)
M99
