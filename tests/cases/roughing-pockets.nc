(Type II, since the first block names X and Z: down the wall, along the level, up the wall)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U2.5 R1. (expect no move)
G71 P10 Q20 U0 W0 F.3 (expect rapid X37. Z2. pass 1) (expect feed X37. Z-30. pass 1) (expect feed X44. Z-29. pass 1) (expect rapid X44. Z2. pass 2) (expect rapid X32. Z2. pass 2) (expect feed X32. Z-30. pass 2) (expect feed X39. Z-29. pass 2) (expect rapid X39. Z2. pass 3) (expect rapid X30. Z2. pass 3) (expect feed X27. Z-20. pass 3) (expect feed X34. Z-29. pass 3) (expect rapid X34. Z2. pass 4) (expect rapid X30. Z2. pass 4) (expect rapid X42. Z2. pass 4)
N10 G00 X30. Z2. (expect no move)
G01 Z-10. (expect feed X30. Z-10. pass 3) (expect feed X30. Z-10. pass 4)
X26. Z-15. (expect feed X27. Z-13.75 pass 3) (expect feed X26. Z-15. pass 4)
Z-20. (expect feed X26. Z-20. pass 4)
X30. (expect feed X30. Z-20. pass 3) (expect feed X30. Z-20. pass 4)
Z-30. (expect feed X30. Z-30. pass 3) (expect feed X30. Z-30. pass 4)
N20 X42. (expect feed X42. Z-30. pass 1) (expect feed X37. Z-30. pass 2) (expect feed X32. Z-30. pass 3) (expect feed X42. Z-30. pass 4)
M30
