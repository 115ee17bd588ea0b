(Without a first block the control takes its own settings)
T1010
G97 S800 M03
G00 X28. Z5.
G76 X19. Z-20. P500 Q500 F1.5 (expect finding threading-figures-not-given at 1 unproven)
M30
