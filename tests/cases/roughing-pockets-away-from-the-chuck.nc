(The mirror image along Z)
T0101
G97 S1000 M03
G00 X42. Z-42.
G71 U2.5 R1.
G71 P10 Q20 U0 W0 F.3 (expect rapid X37. Z-42. pass 1) (expect feed X37. Z-10. pass 1) (expect feed X44. Z-11. pass 1) (expect rapid X44. Z-42. pass 2) (expect rapid X32. Z-42. pass 2) (expect feed X32. Z-10. pass 2) (expect feed X39. Z-11. pass 2) (expect rapid X39. Z-42. pass 3) (expect rapid X30. Z-42. pass 3) (expect feed X27. Z-20. pass 3) (expect feed X34. Z-11. pass 3) (expect rapid X34. Z-42. pass 4) (expect rapid X30. Z-42. pass 4) (expect rapid X42. Z-42. pass 4)
N10 G00 X30. W0 (expect no move)
G01 Z-30. (expect feed X30. Z-30. pass 3) (expect feed X30. Z-30. pass 4)
X26. Z-25. (expect feed X27. Z-26.25 pass 3) (expect feed X26. Z-25. pass 4)
Z-20. (expect feed X26. Z-20. pass 4)
X30. (expect feed X30. Z-20. pass 3) (expect feed X30. Z-20. pass 4)
Z-10. (expect feed X30. Z-10. pass 3) (expect feed X30. Z-10. pass 4)
N20 X42. (expect feed X42. Z-10. pass 1) (expect feed X37. Z-10. pass 2) (expect feed X32. Z-10. pass 3) (expect feed X42. Z-10. pass 4)
M30
