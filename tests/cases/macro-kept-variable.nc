(#500 to #999 survive on a machine, so what stands in them is not known)
T0101
G97 S1000 M03
G00 X62. Z2.
G00 X[50+#500] (expect finding variable-not-known unproven) (expect rapid X50)
#500=2
G00 X[50+#500] (expect rapid X52)
M30
