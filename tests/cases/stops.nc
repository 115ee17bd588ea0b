T0101
G97 S1000 M03
G00 X62. Z2.
M00 (expect stop)
G01 X60. F.2
M01 (expect optional-stop)
X62. M00 (stops behind the move) (expect feed X62) (expect stop)
M02 (expect end)
G01 X0 (never reached) (expect no move) (expect finding blocks-behind-end unproven)
