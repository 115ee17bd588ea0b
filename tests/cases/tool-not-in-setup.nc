T0505 (expect index) (expect finding tool-not-in-setup at 1)
G97 S1000 M03
G00 X62. Z2. (expect rapid)
T2020 (expect finding tool-not-in-setup at 1)
T0107 (expect index) (expect finding offset-not-in-setup at 1 unproven)
T1.5 (expect no move) (expect finding bad-tool-word at 1)
M06 (expect no move) (expect finding tool-change-without-tool at 1)
M30
