T0101
G97 S400 M03
G00 X28. Z6.
G32 Z-20. F4. Q180. (expect thread X28 Q180) (expect finding start-angle-with-point at 15 unproven)
G00 Z6.
G32 Z-20. F4. Q180 (expect thread X28 Q0.18) (expect finding start-angle-improbable at 15)
G00 Z6.
G32 Z-20. F4. Q400000 (expect thread X28 Q0) (expect finding start-angle-out-of-range at 15)
G00 Z6.
G32 Z-20. F4. Q-90000 (expect thread X28 Q0) (expect finding start-angle-out-of-range at 15)
G00 Z6.
G32 Z-20. F4. Q360000 (expect thread X28 Q0)
M30
