#1=2 (expect finding no-program-end)
