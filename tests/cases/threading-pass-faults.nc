T1010
G97 S800 M03
G00 X28. Z5.
G92 X23.4 Z-20. (expect no move) (expect finding missing-feed)
G92 X28. Z-20. F1.5 (expect no move) (expect finding thread-start-inside)
G92 X23. Z5. F1.5 (expect no move) (expect finding cycle-cuts-nothing)
G92 X27. Z-20. R.6 F1.5 (expect no move) (expect finding thread-start-inside)
G00 X28.
G92 F1.5 (expect no move) (expect finding cycle-without-axes)
G00 Z50.
M30
