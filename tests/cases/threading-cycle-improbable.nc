(Figures that are a thousand times too small or too large, or have a point)
T1010
G97 S800 M03
G00 X28. Z5.
G76 P010060 Q50 R0
G76 X19. Z-20. P2 Q200 F1.5 (expect finding thread-depth-improbable at 16)
G76 X19. Z-20. P.5 Q200 F1.5 (expect finding count-with-point at 16 unproven)
G76 X19. Z-20. P1500 Q400 F1.5 (expect finding thread-deeper-than-profile at 1)
M30
