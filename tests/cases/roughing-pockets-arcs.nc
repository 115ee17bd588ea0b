(A hollow of radius 10 between two cylinders: levels end on the arc, and arcs are followed up to the level above)
T0101
G97 S1000 M03
G00 X42. Z2.
G71 U3. R.5
G71 P10 Q20 U0 W0 F.2 (expect rapid X40. Z2. pass 1) (expect feed X36. Z-24. pass 1) (expect feed X43. Z-29.5 pass 1) (expect rapid X43. Z2. pass 2) (expect rapid X40. Z2. pass 2) (expect rapid X42. Z2. pass 2)
N10 G00 X40. W0 (expect no move)
G01 Z-10. (expect feed X40. Z-10. pass 1) (expect feed X40. Z-10. pass 2)
G02 X40. Z-26. R10. (expect arc-cw X36. Z-12. I6. K-8. pass 1) (expect arc-cw X40. Z-26. I8. K6. pass 1) (expect arc-cw X40. Z-26. I6. K-8. pass 2)
G01 Z-30. (expect feed X40. Z-30. pass 1) (expect feed X40. Z-30. pass 2)
N20 X42. (expect feed X42. Z-30. pass 1) (expect feed X42. Z-30. pass 2)
M30
