(0.25 mm short)
(tools thread)
G21 G40 G99
G97 S600 M03
T0101
G00 X23.5 Z3.
G01 Z-40. F.2
X34.
G00 Z10.
G28 U0 W0
T0202
G00 X32. Z12.
G76 P010060 Q100 R.05
G76 X20.319 Z-30. P1840 Q400 F3. (expect note thread-crest-not-topped topped_mm -0.25 within 0.002)
G28 U0 W0
M30
