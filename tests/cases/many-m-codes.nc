(At most four M words in a block: NISTIR 6556 sec. 3.3.5, row TC008)
T0101
G97 S1000
M03 M08 M00 M06 (expect finding tool-change-without-tool) (expect stop)
M03 M08 M01 M06 T0404 M05 (expect index) (expect finding many-m-codes at 23) (expect finding codes-conflict at 23)
M30
