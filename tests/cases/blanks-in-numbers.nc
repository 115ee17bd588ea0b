(NISTIR 6556 sec. 3.3: blanks and tabs mean nothing outside comments, row TC002)
T 01 01
G97 S1000 M03
g0x +0. 12 34z 7 (expect rapid X0.1234 Z7) (expect finding length-without-point at 14)
G 0 1 X 2 0 . Z - 5 F . 2 (expect feed X20 Z-5 F0.2)
M30
