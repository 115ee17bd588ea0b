T0101
X62. Z2. (expect rapid X62 Z2) (expect finding no-motion-code unproven)
X60. (expect rapid X60)
M30
