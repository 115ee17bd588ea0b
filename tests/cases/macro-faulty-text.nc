T0101
G97 S1000 M03
G00 X62. Z2.
#1= (expect finding expression-faulty)
#1=5+ (expect finding expression-faulty)
#1 5 (expect finding statement-faulty)
#1=SINE[30] (expect finding unknown-function at 4)
#1=1 2]  (expect finding statement-faulty)
#1=5 X20. (expect finding statement-faulty at 6)
IF[#1EQ1] (expect finding statement-faulty)
IF[#1EQ1]X20. (expect finding statement-faulty)
WHILE[#1EQ1] (expect finding statement-faulty)
#1=BIN[#2] (expect finding function-not-carried-out at 4 unproven)
#1=#1.5 (expect finding no-such-variable)
G00 X[1+] (expect finding expression-faulty) (expect no move)
M30
