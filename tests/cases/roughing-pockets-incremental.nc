(U and W name X and Z as well)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U4. R1.
G71 P10 Q20 U0 W0 F.3 (expect rapid X34. Z2. pass 1) (expect feed X34. Z-30. pass 1) (expect feed X44. Z-29. pass 1) (expect rapid X44. Z2. pass 2) (expect rapid X30. Z2. pass 2) (expect rapid X42. Z2. pass 2)
N10 G00 U-12. W0 (expect no move)
G01 W-12. (expect feed X30. Z-10. pass 2)
U-4. W-5. (expect feed X26. Z-15. pass 2)
W-5. (expect feed X26. Z-20. pass 2)
U4. (expect feed X30. Z-20. pass 2)
W-10. (expect feed X30. Z-30. pass 2)
N20 U12. (expect feed X42. Z-30. pass 1) (expect feed X42. Z-30. pass 2)
M30
