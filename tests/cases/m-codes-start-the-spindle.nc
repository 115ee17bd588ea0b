T0101
M33 (expect dwell S0.5) (expect finding spindle-code-without-speed at 1)
G97 S500
G00 X62. Z2. (expect state spindle 1 speed 500)
M30
