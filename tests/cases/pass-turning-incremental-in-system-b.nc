(Under G91 X and Z count from the start point in every block; U and W are no axis words)
(option system-b)
T0101
G97 G95 S1000 M03
G90 G00 X62. Z2.
G91 G77 X-6. Z-32. F.2 (expect rapid X56 Z2) (expect feed X56 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
X-10. (expect rapid X52 Z2) (expect feed X52 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
X-12. W-5. (expect finding unknown-word at 7 unproven) (expect rapid X50 Z2) (expect feed X50 Z-30) (expect feed X62 Z-30) (expect rapid X62 Z2)
G00 X8. (expect rapid X70)
G75 X-20. P10000 (expect feed X50) (expect rapid X70)
G75 X-20. P10000 U3. (expect finding unknown-word at 18 unproven) (expect feed X50) (expect rapid X70)
G90
M30
