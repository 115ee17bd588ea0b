(Never moves and never ends)
(option max-blocks 1000)
T0101
G97 S1000 M03
G00 X62. Z2.
#1=1
WHILE[#1GT0]DO1
#1=#1+1
END1 (expect finding endless-program)
M30
