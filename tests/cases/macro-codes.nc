(Codes, tools, speeds and stops may come from variables as well)
#1=1
#2=97
#3=101
#4=3
T#3 (expect index S0.6)
G#2 S[500*2] M#4
G00 X62. Z2. (expect rapid X62 Z2) (expect state spindle 1 speed 1000)
G#1 X60. F.2 (expect feed X60 Z2)
G[#1-1] X62. (expect rapid X62)
N#1 G#0 M#0 X61. (null: as if not written) (expect rapid X61)
G04 P[#1*250] (expect dwell S0.25)
M#1 (expect optional-stop)
M[30]  (expect end)
