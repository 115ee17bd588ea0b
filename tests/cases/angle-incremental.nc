T0101
G97 S1000 M03
G00 X20. Z0
G01 U10. A150. F.2 (expect feed X30 Z-8.660)
W-11.34 A180. (expect feed X30 Z-20)
W-5. A135. (expect feed X40 Z-25)
M30
