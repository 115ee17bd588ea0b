(No Q: in one go; no R: at feed from where it stands; Q5. is lenient)
T0808
G97 S800 M03
G00 X0 Z2.
G83 Z-14. F.1 (expect feed Z-14) (expect rapid Z2)
G83 Z-8. Q5. (expect finding count-with-point at 10 unproven) (expect feed Z-3) (expect rapid Z2) (expect rapid Z-2.5) (expect feed Z-8) (expect rapid Z2)
G80
G00 X80.
M30
