(200 m/min at diameter 100 are 636.62 rev/min: n = 1000 vc / pi D)
T0101
G50 S2500
G96 S200 M03
G00 X100. Z2.
G97 (expect finding speed-mode-without-speed at 1 unproven)
G00 Z3. (expect state surface-speed 0 speed 636.6198)
M30
