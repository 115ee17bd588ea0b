(The offset pages as variables: wear of offset 1 on X, G55 along Z in machine coordinates, gauge of offset 1)
#2001=.2
T0101
G97 S1000 M03
G00 X50. Z2. (expect rapid X50 Z2)
G00 X[50+#2001*10] (expect rapid X52)
#5242=#5222-5.
G55 G00 Z2. (5 nearer to the chuck than G54) (expect rapid Z2)
G28 U0 W0 (expect home X239.8 Z215)
#5201=1. (the external offset, on diameter)
G00 X50. (expect rapid X50)
G28 U0 (expect home X238.8)
G00 X[50+#2701] (the gauge: -120) (expect rapid X-70)
#2001=0 (expect finding offset-changed-while-active at 1 unproven)
#2301=12 (expect finding no-such-tip at 1)
#2201=#0
M30
