(Two pockets: each level is cut in both before the next; at rapid over the ridge between, 0.5 above it)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U3. R.5
G71 P10 Q20 U0 W0 F.3 (expect rapid X40. Z2. pass 1) (expect feed X36. Z-20. pass 1) (expect feed X36. Z-40. pass 1) (expect feed X43. Z-42.5 pass 1) (expect rapid X43. Z-6. pass 2) (expect rapid X37. Z-6. pass 2) (expect feed X36. Z-6. pass 2) (expect feed X30. Z-17. pass 2) (expect feed X37. Z-19.5 pass 2) (expect rapid X42. Z-19.5 pass 3) (expect rapid X42. Z-26. pass 3) (expect rapid X37. Z-26. pass 3) (expect feed X36. Z-26. pass 3) (expect feed X30. Z-37. pass 3) (expect feed X37. Z-39.5 pass 3) (expect rapid X42. Z-39.5 pass 4) (expect rapid X42. Z2. pass 4) (expect rapid X40. Z2. pass 4) (expect rapid X42. Z2. pass 4)
N10 G00 X40. W0 (expect no move)
G01 Z-4. (expect feed X40. Z-4. pass 1) (expect feed X40. Z-4. pass 4)
X28. Z-10. (expect feed X36. Z-6. pass 1) (expect feed X30. Z-9. pass 2) (expect feed X28. Z-10. pass 4)
Z-16. (expect feed X28. Z-16. pass 4)
X38. Z-21. (expect feed X38. Z-21. pass 1) (expect feed X36. Z-20. pass 2) (expect feed X38. Z-21. pass 4)
Z-25. (expect feed X38. Z-25. pass 1) (expect feed X38. Z-25. pass 4)
X28. Z-30. (expect feed X36. Z-26. pass 1) (expect feed X30. Z-29. pass 3) (expect feed X28. Z-30. pass 4)
Z-36. (expect feed X28. Z-36. pass 4)
N20 X42. Z-43. (expect feed X42. Z-43. pass 1) (expect feed X36. Z-40. pass 3) (expect feed X42. Z-43. pass 4)
M30
