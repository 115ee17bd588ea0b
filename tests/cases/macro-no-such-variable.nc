T0101
G97 S1000 M03
G00 X62. Z2.
#1=#50 (expect finding no-such-variable at 4)
#1=#300+1 (expect finding no-such-variable)
#50=1 (expect finding no-such-variable)
#0=1 (expect finding no-such-variable)
#[0-1]=1 (expect finding no-such-variable)
#[1.5]=1 (expect finding no-such-variable)
#[#9]=1 (expect finding no-such-variable)
M30
