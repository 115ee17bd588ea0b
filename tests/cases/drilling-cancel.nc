(G80, or any other movement code. After G80 the next movement says its own; G80 with it, or where nothing is on, is fine)
G80 G40 G97
T0808
G97 S800 M03
G00 X0 Z5.
G81 Z-4. R-3. F.1
G80
X10. (expect finding no-motion-code unproven) (expect rapid X10 Z5)
G00 X0
G81 Z-4. R-3.
G01 Z3. (expect feed Z3)
G81 Z-4. (expect feed Z-4) (expect rapid Z3)
G00 G80 Z5. (expect rapid Z5)
G90 X-2. Z4. (expect rapid X-2) (expect feed X-2 Z4) (expect feed X0) (expect rapid Z5)
G80 (ends no turning pass)
X-4. (expect rapid X-4) (expect feed X-4 Z4) (expect feed X0) (expect rapid Z5)
G00 X80.
M30
