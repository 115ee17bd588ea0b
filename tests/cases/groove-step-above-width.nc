(The edge is 3 mm wide. A last step that is short does not hide the long one; a single short step is none)
T0606
G97 S600 M03
G00 X62. Z-20.
G75 X58. Z-26. P9000 Q3000 F.08
G75 X58. Z-27. P9000 Q3500 (expect finding groove-step-above-width at 22)
G75 X58. Z-22. P9000 Q3500
G75 X58. Z-24. P9000 Q6000 (expect finding groove-step-above-width at 22)
G00 X80.
M30
