(Common practice, no source: X and U count seconds, P milliseconds)
T0101
G04 X500 (500 ms was meant) (expect dwell S500) (expect finding dwell-improbable at 5)
G04 P500 (expect dwell S0.5)
G04 X60. (expect dwell S60)
M30
