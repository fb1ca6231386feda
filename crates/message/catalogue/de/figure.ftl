figure-taken-out = von einer Person herausgenommen
figure-programmes-limits = die Grenzen des Programms
figure-programmes-limit = die Grenze des Programms
figure-value-with-u = Wert mit seiner erweiterten Messunsicherheit
figure-value-without-u = Wert, Unsicherheit nicht angegeben
figure-up-to-bound = höchstens: irgendwo bis zur Grenze
figure-standard = Standard, mit seinem Intervall
figure-line-with-band = Gerade mit ihrem Band
figure-left-over = Rest, in Vielfachen von u; blass: wo 95 % davon liegen sollten
figure-left-over-narrow = Rest, in u; blass: 95 % davon
figure-standards-in-order = Standards in ihrer Reihenfolge, { $axis }
figure-mean-of-kind = Mittel der Art
figure-critical-value = Erkennungsgrenze { $value }
figure-detection-limit = Nachweisgrenze { $value }
figure-bent-axis = { $unit }; nahe null linear, darüber hinaus logarithmisch
figure-blanks-of-kind = n = { $blanks }
figure-check = Kontrolle
figure-drift-removed = herausgenommene Drift
figure-internal-standard = Interner Standard, % seiner ersten Messwerte
figure-checks = Kontrollen, % des zugewiesenen Werts, mit 95-%-Intervall
figure-checks-narrow = Kontrollen, % des zugewiesenen Werts
figure-time-of-day = Uhrzeit
figure-up-to-limit = nicht nachgewiesen: irgendwo bis zur Grenze
figure-above-warning = über der Warngrenze
figure-above-action = über der Eingriffsgrenze
figure-action-limit = Eingriffsgrenze { $value }
figure-warning-limit = Warngrenze { $value }
figure-median = Median des Bezugszeitraums { $value }
figure-baseline = Bezugszeitraum: { $blanks ->
    [one] die erste setzt
   *[other] die ersten { $blanks } setzen
} die Grenzen
figure-log-axis-from-zero = { $unit }; logarithmisch, null am Fuß
figure-waters = Wässer
figure-pair = ein Paar, beide nachgewiesen
figure-pair-apart = weiter auseinander, als ihr u vorhersagt
figure-pair-non-detect = ein Paar mit nicht Nachgewiesenem: kein Unterschied zu zeigen
figure-difference = Unterschied der beiden, % ihres Mittels
figure-level = Gehalt, { $unit } (Log-Achse)
figure-not-given = nicht angegeben
figure-here = { $name } ({ $percent } % hier)
