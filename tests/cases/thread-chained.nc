(One run: straight, then out of the part on a taper; the second block starts where the spindle has got to: 12.5 turns of lead 2)
T0101
G97 S500 M03
G00 X28. Z5.
G32 Z-20. F2. Q90000 (expect thread X28 Z-20 F2 Q90)
G32 X32. Z-24. (expect thread X32 Z-24 F2 Q270)
G00 X40.
M30
