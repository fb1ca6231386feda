### Das Alter von Wasser nach Umwelttracern: was gemessen wurde, was die Modelle sagen, warum es keine Antwort gibt.

# What cannot be.
# $tracer (name): its sign
age-of-tracer = { $tracer } der Probe

# What was found.
age-no-unit = eine Zahl ohne Einheit

# What was found.
# $unit (name): as it was given
age-unit = die Einheit „{ $unit }“

# What is allowed.
# $known (list): units
age-one-of-units = eine von { $known }; „pMC“ allein kann 100 F14C heißen oder einen Wert, der auf das Jahr der Messung zerfallen ist: das Labor fragen

# What was found.
age-no-date = kein Tag der Probenahme

# What is allowed.
age-date-of-sampling = der Tag der Probenahme vom Feldblatt: ein Alter zählt von ihm zurück

# What cannot be.
age-year-of-sampling = Jahr der Probenahme

# What is allowed.
age-value-with-u-above = ein Wert mit einer Standardunsicherheit über 0; bei „nicht nachgewiesen“ eine Schranke über 0: das Labor nach beiden fragen

# What is allowed.
age-f14c-allowed = höchstens etwa 2, die höchste Luft nach den Bombentests: prüfen, ob die Zahl in Prozent steht oder das Wasser mit Kohlenstoff-14 verunreinigt ist
