(Cylindrical interpolation: C behind G07.1 is the radius of the cylinder)
T0808
M05
G00 X40. Z2.
G07.1 C20. (expect finding c-axis-not-cut at 1 unproven) (expect no move)
G98 G01 Z-5. C30. F100. (expect feed X40 Z-5)
G02 Z-10. C60. R5. (expect feed X40 Z-10)
G07.1 C0
G107 (expect finding cylinder-without-radius at 1)
G107 C0
G00 X50.
M30
