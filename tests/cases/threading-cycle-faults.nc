T1010
G97 S800 M03
G00 X28. Z5.
G76 P010000 Q50 R0
G76 X19. Z-20. P500 F1.5 (expect no move) (expect finding missing-thread-infeed)
G76 X19. Z-20. P500 Q0 F1.5 (expect no move) (expect finding missing-thread-infeed at 21)
G76 X19. Z-20. Q200 F1.5 (expect no move) (expect finding missing-thread-depth)
G76 X19. Z-20. P0 Q200 F1.5 (expect no move) (expect finding missing-thread-depth at 16)
G76 X19. P500 Q200 F1.5 (expect no move) (expect finding thread-end-missing at 1)
G76 Z-20. P500 Q200 F1.5 (expect no move) (expect finding thread-end-missing at 1)
G76 X19. Z5. P500 Q200 F1.5 (expect no move) (expect finding cycle-cuts-nothing)
G76 X27.2 Z-20. P500 Q200 F1.5 (expect no move) (expect finding thread-start-inside)
G76 X19. Z-20. P-500 Q200 F1.5 (expect no move) (expect finding not-above-zero at 16)
G76 Q0 (expect no move)
G76 X19. Z-20. P900 Q20 F1.5 (expect no move) (expect finding too-many-passes at 1)
G76 R.6 (expect no move)
G76 X19. Z-20. P500 Q200 F1.5 (expect no move) (expect finding allowance-above-depth at 1)
M30
