(K the depth, D the first pass, A the angle; the rest stands in the control)
T1010
G97 S800 M03
G00 X28. Z5.
G76 X19. Z-20. K.5 D500 A0 F1.5 (expect rapid X19 Z5) (expect thread X19 Z-18.5) (expect thread X22 Z-20) (expect rapid X28 Z-20) (expect rapid X28 Z5) (expect rapid X19 Z5) (expect thread X19 Z-18.5) (expect thread X22 Z-20) (expect rapid X28 Z-20) (expect rapid X28 Z5) (expect finding threading-figures-not-given at 1 unproven)
G76 X19. Z-20. K.5 D.5 I-.2 A60 P2 F1.5 (expect finding threading-figures-not-given unproven) (expect finding infeed-pattern-not-modelled unproven)
M30
