G97 S1000 M03
G28 U0 W0 (expect no move)
G00 X300. Z200. (expect rapid X300 Z200) (expect finding no-tool-called unproven)
M30
