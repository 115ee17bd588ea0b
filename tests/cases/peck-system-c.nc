(option system-c)
G71
T0808
G97 G95 S800 M03
G00 X0 Z2.
G76 R1.
G76 Z-8. Q5000 F.1 (expect feed Z-3) (expect rapid Z-2) (expect feed Z-8) (expect rapid Z2)
G91 G28 X0 Z0
T0606
G90 G00 X62. Z-20.
G77 R.5
G77 X56. P2000 (expect feed X58) (expect rapid X59) (expect feed X56) (expect rapid X62)
G00 X80.
M30
