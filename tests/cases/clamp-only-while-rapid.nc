(Surface speed without a clamp is said only where it cuts)
T0101
G96 S180 M03
G00 X62. Z2.
G97 S500
G01 X60. F.2 (expect feed X60)
M30
