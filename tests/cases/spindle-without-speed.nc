T0101
M03 (expect finding spindle-code-without-speed at 1)
G97 S500
M04 (expect no move)
G50 (expect finding clamp-without-speed at 1)
G50 S0 (expect finding not-above-zero)
G00 X62. Z2. (expect state speed 500 spindle -1 clamp 0)
M30
