(Said once for each tool; another tool begins without C)
T0808
M05
G00 X30. Z5. C90. (expect finding c-axis-not-cut at 14 unproven)
G00 C120. (expect dwell)
G28 U0 W0 H0
T0101
G97 S1000 M03
G00 X62. Z2.
M05
G28 C0 (expect finding c-axis-not-cut at 5 unproven) (expect no move)
G28 U0 W0
M30
