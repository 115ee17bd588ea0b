(To the centre and a little beyond; far beyond is a slip)
T0606
G97 S600 M03
G00 X62. Z-40.
G75 X-.4 P40000 F.05 (expect feed X-0.4) (expect rapid X62)
G75 X-4. P40000 (expect finding groove-beyond-centre at 5) (expect feed X-4) (expect rapid X62)
G00 X80.
M30
