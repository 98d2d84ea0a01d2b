(a sound program but for one fault)
G21
G17
G90
G94
G40
S18000 M3
G4 P3
G0 Z50.000
G0 X0.000 Y0.000
G1 Z-2.000 F600.0
G1 X100.000                       F1800.0
G0 Z50.000
M5
M2
