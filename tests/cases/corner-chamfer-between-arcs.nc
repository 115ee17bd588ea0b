(The same two arcs with a chamfer of 2: its ends lie 2 from the corner, each on its arc, by the law of cosines)
T0101
G97 S1000 M03
G00 X20. Z0
G03 X32. Z-18. I0 K-10. ,C2. F.2 (expect arc-ccw X34.944 Z-16.646) (expect feed X34.944 Z-19.354)
G03 X20. Z-36. I-6. K-8. (expect arc-ccw X20 Z-36)
M30
