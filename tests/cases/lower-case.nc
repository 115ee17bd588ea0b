t0101
g97 s1000 m03
g0 x62. z2. (expect rapid X62 Z2)
g1 x20 z-5 f.2 (expect feed X20 Z-5 F0.2) (expect finding length-without-point at 4)
m30 (expect end)
