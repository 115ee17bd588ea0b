(#3006: a stop with a text)
T0101
G97 S1000 M03
G00 X62. Z2.
#3006=1(TURN THE PART) (expect finding program-message) (expect stop)
G00 X60. (expect rapid X60)
#3003=1 (expect finding control-behaviour-set)
M30
