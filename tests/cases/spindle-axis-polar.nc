(Polar interpolation: C as a length; arcs in its plane are carried straight)
T0808
M05
G00 X40. Z2.
G12.1 (expect finding c-axis-not-cut at 1 unproven)
G98 G01 X30. C10. F100. (expect feed X30 Z2)
C-10. (expect dwell X30 Z2)
G02 X-30. C-10. R15. (expect feed X-30 Z2)
G42 G01 X-30. C0 (expect dwell comp off)
G40
G13.1
G00 X40. (expect rapid X40 Z2)
G112
G00 X30. (expect rapid X30)
G113
M30
