(Two arcs of radius 10 about X20 Z-10 and X20 Z-26 meet at radius 16: a fillet of 2 lies 12 from both centres, at)
(radius 10 + sqrt 80, and touches them 10 twelfths of the way. Elementary geometry)
T0101
G97 S1000 M03
G00 X20. Z0
G03 X32. Z-18. I0 K-10. ,R2. F.2 (expect arc-ccw X34.907 Z-16.667 I0 K-10) (expect arc-cw X34.907 Z-19.333 I1.491 K-1.333)
G03 X20. Z-36. I-6. K-8. (expect arc-ccw X20 Z-36)
M30
