(Words with variables in a profile are as good as any; statements there are not)
T0101
G97 S1000 M03
G00 X62. Z2.
#1=40.
G71 U2. R.5
G71 P10 Q20 U.4 W.1 F.3
N10 G00 X#1
G01 Z-10. F.2
#2=50. (expect finding not-allowed-in-profile unproven)
X#2
N20 X60.
G70 P10 Q20
M30
