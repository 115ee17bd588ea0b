(An undercut in a bore: U is below zero)
T0404
G97 S1000 M03
G00 X20. Z2.
G71 U1.5 R.5
G71 P10 Q20 U-.4 W0 F.2 (expect rapid X23. Z2. pass 1) (expect feed X23. Z-30. pass 1) (expect feed X19. Z-29.5 pass 1) (expect rapid X19. Z2. pass 2) (expect rapid X23.6 Z2. pass 2) (expect feed X26. Z-23. pass 2) (expect feed X22. Z-29.5 pass 2) (expect rapid X22. Z-12. pass 3) (expect rapid X25. Z-12. pass 3) (expect feed X26. Z-12. pass 3) (expect feed X29. Z-20.5 pass 3) (expect feed X25. Z-22.5 pass 3) (expect rapid X22. Z-22.5 pass 4) (expect rapid X22. Z2. pass 4) (expect rapid X23.6 Z2. pass 4) (expect rapid X20. Z2. pass 4)
N10 G00 X24. W0 (expect no move)
G01 Z-10. (expect feed X23.6 Z-10. pass 2) (expect feed X23.6 Z-10. pass 4)
X30. Z-15. (expect feed X26. Z-12. pass 2) (expect feed X29. Z-14.5 pass 3) (expect feed X29.6 Z-15. pass 4)
Z-20. (expect feed X29.6 Z-20. pass 4)
X24. Z-25. (expect feed X23.6 Z-25. pass 2) (expect feed X26. Z-23. pass 3) (expect feed X23.6 Z-25. pass 4)
Z-30. (expect feed X23.6 Z-30. pass 2) (expect feed X23.6 Z-30. pass 4)
N20 X20. (expect feed X20. Z-30. pass 1) (expect feed X23. Z-30. pass 2) (expect feed X19.6 Z-30. pass 4)
M30
