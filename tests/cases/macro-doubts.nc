(Rules in which controls differ, where they decide)
T0101
G97 S1000 M03
G00 X62. Z2.
#1=.1+.1+.1
IF[#1EQ.3]THEN#2=50. (expect finding controls-calculate-otherwise unproven)
G00 X#2 (expect rapid X50)
#3=FIX[-2.8] (expect finding controls-calculate-otherwise unproven)
#4=6AND3 (expect finding controls-calculate-otherwise unproven)
#5=ATAN[-1]/[1] (expect finding controls-calculate-otherwise unproven)
#6=1+2AND1 (expect finding operator-order unproven) (expect finding controls-calculate-otherwise unproven)
M30
