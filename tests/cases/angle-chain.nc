(Three lines and four blocks: each second line ends where it says and the next pair begins there)
T0101
G97 S1000 M03
G00 X20. Z0
G01 A180. F.2 (expect feed X20 Z-15)
X50. Z-30. A135. (expect feed X50 Z-30)
A180. ,C2. (expect feed X50 Z-33) (expect feed X52.828 Z-36.414)
X60. Z-40. A135. (expect feed X60 Z-40)
M30
