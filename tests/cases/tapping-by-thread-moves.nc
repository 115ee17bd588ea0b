(Written out: in, the spindle reversed, out)
T0909
G97 S300 M03
G00 X0 Z5.
G32 Z-20. F1.75 (expect thread X0 Z-20 F1.75) (expect state spindle 1)
M04
G32 Z5. (expect thread X0 Z5 F1.75) (expect state spindle -1)
M30
