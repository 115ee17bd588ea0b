(An undercut in the profile: the pass stops at its first wall, the pocket is left to the cut along the profile)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U4. R1.
G71 P10 Q20 U0 W0 F.3 (expect rapid X34 Z2) (expect feed X34 Z-30) (expect feed X36 Z-29) (expect rapid X36 Z2) (expect rapid X30 Z2) (expect rapid X42 Z2)
N10 G00 X30.
G01 Z-10.
X26. Z-15. (expect feed X26 Z-15) (expect finding profile-not-monotonic unproven)
Z-20.
X30.
Z-30.
N20 X42.
M30
