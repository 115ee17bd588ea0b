(While the spindle turns, C at feed is no word of a move)
T0101
G97 S1000 M03
G00 X62. Z2.
G01 X60. C2. F.2 (expect feed X60) (expect finding unknown-word at 10 unproven)
M05
G00 C90. (expect finding c-axis-not-cut at 5 unproven) (expect dwell)
M03
G01 X58. C2. (expect feed X58) (expect finding unknown-word at 10 unproven)
G00 X70.
M30
