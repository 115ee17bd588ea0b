(80, 60, 55, 30, 29 and 0 are known; an insert of 60 cannot be fed in for 80)
T1010
G97 S800 M03
G00 X28. Z5.
G76 P010045 Q50 R0 (expect finding thread-angle-unknown at 5)
G76 P010080 Q50 R0
G76 X19. Z-20. P500 Q400 F1.5 (expect finding thread-angle-differs at 1)
G76 P010055 Q50 R0
G76 X19. Z-20. P500 Q400 F1.5
G76 P1.5 Q50 R0 (expect finding bad-threading-figures at 5)
G76 P0 Q50 R.05
G76 X19. Z-20. P500 Q400 F1.5 (expect finding thread-without-finish-pass at 1)
M30
