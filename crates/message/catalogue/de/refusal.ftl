refusal-position-twice = Platz { $position } ist doppelt belegt, von „{ $first }“ und „{ $second }“: jedem Gefäß einen eigenen Platz geben
refusal-reading-twice = { $isotope } ist im Gefäß auf Platz { $position } zweimal gemessen: eines der beiden ausschließen
refusal-reading-without-vial = { $isotope } ist auf Platz { $position } gemessen, wo der Messlauf kein Gefäß hat
refusal-reading = { $isotope } auf Platz { $position } ({ $vial }): { $why }; Wiederholungen in Impulsen/s ≥ 0 angeben oder Mittel, sd und n
refusal-reading-empty = es hat weder Wiederholungen noch Mittel
refusal-reading-summary = Mittel, sd und n brauchen n ≥ 1 und sd ≥ 0
refusal-reading-both = es hat Wiederholungen und eine Zusammenfassung
refusal-reading-no-number = eine Rate ist keine Zahl
refusal-reading-time = seine Messzeit ist negativ oder keine Zahl
refusal-reading-negative = eine gezählte Rate ist negativ
refusal-reading-single = eine einzelne Wiederholung ohne Messzeit hat keine Unsicherheit
refusal-replicates-unequal = { $isotope } auf Platz { $position } ({ $vial }) hat { $found ->
    [one] { $found } Wiederholung
   *[other] { $found } Wiederholungen
}, wo { $with } { $expected } hat: Verhältnisse werden Wiederholung für Wiederholung gebildet
refusal-dilution = die Verdünnung von „{ $vial }“ auf Platz { $position } ist { $value } (u { $u }): ein Verdünnungsfaktor nach Masse ist über 0 mit u ≥ 0, 1 für unverdünnt
refusal-bottle-above-zero = { $what } der Flasche von „{ $vial }“ auf Platz { $position } ist { $value }: der Wert ist über 0
refusal-bottle-zero-or-more = { $what } der Flasche von „{ $vial }“ auf Platz { $position } ist { $value }: der Wert ist 0 oder mehr
refusal-time = die Zeit von „{ $vial }“ auf Platz { $position } ist { $minutes } min: Minuten seit Beginn des Messlaufs angeben
refusal-dead-time = { $isotope } auf Platz { $position } ({ $vial }): { $rate } Impulse/s halten den Detektor bei einer Totzeit von { $dead } während { $share } der Zeit tot; das Totzeitmodell gilt ab { $limit } nicht mehr: verdünnen, analog messen oder die Messung ausschließen
refusal-standard-without-value = Standard „{ $vial }“ auf Platz { $position } hat keinen zugewiesenen Wert: Wert, u und Einheit angeben oder eine andere Rolle
refusal-standard-without-value-of = Standard „{ $vial }“ auf Platz { $position } hat keinen zugewiesenen Wert für { $element }: Wert, u und Einheit angeben oder eine andere Rolle
refusal-standard-value-negative = Standard „{ $vial }“ auf Platz { $position } hat keinen zugewiesenen Wert für { $element }, der eine Zahl ≥ 0 ist: Wert, u und Einheit angeben oder eine andere Rolle
refusal-standard-of-none = Standard „{ $vial }“ auf Platz { $position } hat keinen zugewiesenen Wert für { $element }, und kein anderer hat einen (ein Isotop, das nur eine Überlagerung überwacht oder nur als Teiler dient, steht im Rezept: { $element } ist gemessen und nicht genannt): Wert, u und Einheit angeben oder eine andere Rolle
refusal-standards-few = { $analyte }: { $found ->
    [one] { $found } brauchbarer Standard
   *[other] { $found } brauchbare Standards
}, eine Kalibriergerade braucht mindestens 2
refusal-line-falls = { $analyte }: Das Signal steigt nicht mit der Konzentration (Steigung { $slope }), also hat die Kalibriergerade keine Steigung, durch die geteilt werden könnte: die zugewiesenen Werte prüfen und welche Gefäße Standards sind
refusal-line-one-level = { $analyte }: { $standards ->
    [one] Der eine Standard hat
   *[other] Alle { $standards } Standards haben
} dieselbe Konzentration, also hat die Kalibriergerade keine Steigung, durch die geteilt werden könnte: Standards auf zwei oder mehr Stufen messen
refusal-blanks-few = { $analyte }: Das Rezept braucht { $role ->
    [procedural-blank] Verfahrensblindproben
    [bottle-blank] Flaschenblindproben
    [trip-blank] Transportblindproben
    [field-blank] Feldblindproben
    [calibration-blank] Kalibrierblindproben
    [equipment-blank] Geräteblindproben
   *[other] { $role }
}, und der Messlauf hat { $found } brauchbare; mindestens 2 sind nötig, um ihre Streuung zu kennen: mehr messen oder im Rezept eine andere Blindprobe nennen
refusal-bottle-volume = „{ $vial }“ auf Platz { $position } hat kein Flaschenvolumen, und das Rezept nimmt die Blindprobe als Masse je Flasche: mL angeben
refusal-internal-standard = { $analyte }: Der interne Standard { $standard } hat kein Signal { $place }: { $hint }
refusal-internal-standard-resolution = { $analyte }: Ein interner Standard bei der Auflösung { $resolution } hat im Rezept kein Signal: einen dieser Auflösung nennen oder für dieses Isotop keinen
refusal-in-standards = in den Standards und Kalibrierblindproben
refusal-anywhere = im ganzen Messlauf
refusal-at-vial = auf Platz { $position } („{ $vial }“)
refusal-hint-every-vial = er wird jedem Gefäß zugesetzt; im Rezept einen anderen nennen oder keinen
refusal-hint-exclude = die Messungen des Gefäßes mit einem Grund ausschließen oder für dieses Isotop keinen internen Standard nennen
refusal-hint-read = ihn messen oder im Rezept einen anderen nennen
refusal-hint-take-out = ihn messen oder aus dem Rezept nehmen
refusal-recipe-probability = eine Wahrscheinlichkeit zwischen 0 und 1
refusal-recipe-blank = eine der ineinander liegenden Blindproben: Kalibrierung, Verfahren, Flasche, Transport, Feld, Gerät
refusal-no-vial = das Rezept nennt das Gefäß „{ $vial }“ (Faktor von { $species }), und der Messlauf hat kein solches Gefäß mit brauchbaren Messungen von { $target } und { $monitor }
refusal-monitor = { $monitor } überwacht { $species } auf { $target } und ist { $place } nicht gemessen
refusal-factor = Faktor von { $species } auf { $target }: { $why }
refusal-factor-session = Sitzung { $session } hat kein Gefäß mit dem störenden Element allein
refusal-factor-unread = ein Prüfgefäß ist nicht gemessen
refusal-factor-no-signal = das Gefäß „{ $vial }“ zeigt nicht mehr { $monitor } als die Kalibrierblindproben
refusal-factor-no-vial = das Rezept nennt kein Gefäß, das das störende Element allein enthält
refusal-nuclide = { $nuclide } ist nicht in der Tabelle der Isotope: den Faktor mit u angeben
refusal-ratio-not-positive = das gemessene Verhältnis ist { $value }, gebraucht wird eine Zahl über 0
refusal-method-unknown = keine Gleichungen von „{ $name }“ in der Tabelle; sie enthält { $known }
refusal-drift-checks-few = { $analyte }: Das Driftmodell „{ $model }“ braucht { $needed ->
    [one] { $needed } Driftkontrolle
   *[other] { $needed } Driftkontrollen
}, und der Messlauf hat { $found }: mehr messen oder ein anderes Modell wählen
refusal-drift-checks-unfit = { $analyte }: Das Driftmodell „{ $model }“ braucht { $needed ->
    [one] { $needed } Driftkontrolle
   *[other] { $needed } Driftkontrollen
} mit einem Signal über null, zu verschiedenen Zeiten: mehr messen oder ein anderes Modell wählen
refusal-recipe = Rezept: { $field } ist { $found }, erwartet { $expected }
refusal-unit-of-vial = „{ $vial }“ auf Platz { $position }: { $why }
refusal-no-vials = der Messlauf hat keine Gefäße
refusal-no-readings = der Messlauf hat keine Messungen außer von internen Standards und Monitoren
refusal-recipe-risks = unter 1
refusal-recipe-dead-time = 0 oder mehr, in ns, mit u_ns ≥ 0
refusal-recipe-share = ein Anteil der Zeit zwischen 0 und 1
refusal-recipe-part = ein Anteil von 0 bis 1
refusal-recipe-analogue = über 0 mit u ≥ 0
refusal-recipe-degree = 0 bis 3
refusal-recipe-recovery = über 0, als Bruchteil
refusal-recipe-lead-vials = die Namen der Gefäße mit dem Referenzmaterial
refusal-recipe-lead-ratios = mindestens ein bekanntes Verhältnis aus 206, 207 und 208
refusal-recipe-lead-different = zwei verschiedene aus 206, 207 und 208
refusal-recipe-lead-value = ein Verhältnis über 0 mit 0 ≤ u < Verhältnis
refusal-recipe-bridge = „bracket“ oder „smooth“: Sitzungen werden durch die Driftkontrollen verbunden, die in jeder gemessen sind
refusal-recipe-equations = ein Verfahren der Tabelle; sie enthält { $known }
refusal-unit-unknown = die Einheit „{ $text }“ ist nicht bekannt
refusal-unit-unknown-hint = die Einheit „{ $text }“ ist nicht bekannt{ $hint }
refusal-unit-ambiguous = die Einheit „{ $text }“ ist mehrdeutig: { $hint }
refusal-unit-different = „{ $from }“ lässt sich nicht in „{ $to }“ umrechnen: { $why }
refusal-formula = die Formel „{ $formula }“ ist nicht zu lesen: Elementsymbole mit Anzahl schreiben, zum Beispiel CaCO3 oder SO4^2-
refusal-out-of-range = { $what }: gefunden { $found }, erwartet { $expected }
refusal-too-few = { $what }: { $have } gegeben, mindestens { $need } nötig; { $hint }
refusal-not-converged = { $what }: nach { $iterations ->
    [one] { $iterations } Schritt
   *[other] { $iterations } Schritten
} nicht zum Ziel gekommen (Rest { $residual })
refusal-run = Messlauf { $run }: { $why }
refusal-recipe-unread = Rezept { $name }: { $why }
refusal-absent = im Programm gibt es { $what ->
    [run] keinen Messlauf
    [result] kein Ergebnis
    [trip] keine Probenahme
    [bottle] keine Flasche
    [vial] kein Gefäß
    [reading] keine Messung
    [series] keine Reihe
    [statement] keine Aussage
    [well] keinen Brunnen
   *[other] kein { $what }
} „{ $name }“{ $hint }
refusal-science = { $what }: { $why }
refusal-stopped = angehalten vor: { $step }
refusal-not-derived = behalten, noch nicht hergeleitet: `limpid recompute` ausführen ({ $why })
refusal-store = die Aufzeichnung: { $why }
refusal-length = { $what }: { $found ->
    [one] { $found } Wert
   *[other] { $found } Werte
} gefunden, { $expected } erwartet, einer je Punkt
refusal-values-few = { $what }: { $found } gefunden, mindestens { $needed } nötig
refusal-not-finite = { $what }: { $value } gefunden, erwartet eine endliche Zahl
refusal-one-level = { $n ->
    [one] der eine Standard steht
   *[other] alle { $n } Standards stehen
} bei x = { $x }: eine Steigung braucht zwei Stufen; einen Standard auf einer anderen Stufe dazunehmen oder die Gerade durch null zwingen
refusal-singular = die Gerade ist singulär: Spalte { $column } ist eine Kombination der vorigen
refusal-flat-line = die Steigung ist { $slope }: die Gerade ist flach und lässt sich nicht vom Signal zur Konzentration lesen
refusal-zero-denominator = { $what } ist null: der Quotient ist nicht definiert
refusal-correlations = die Korrelationen sind nicht positiv semidefinit (kleinster Eigenwert { $smallest }): so können keine Größen korreliert sein; { $pair } prüfen
refusal-model = Modell, Zeichen { $position }: { $why }
refusal-no-value = das Modell gibt an den Schätzwerten { $value }: { $hint }
refusal-no-slope = die Steigung des Modells nach { $input } ist an den Schätzwerten { $value }: die lineare Fortpflanzung versagt dort; ziehen (Monte Carlo) oder den Schätzwert von dort fernhalten
refusal-unsupported = wird hier nicht gemacht: { $what }

refusal-recipe-dark-rate = Impulse/s von 0 oder mehr mit u von 0 oder mehr, ein Eintrag je Isotop
refusal-recipe-carry-over = ein Anteil des Gehalts davor, 0 oder mehr und kleiner als 1
refusal-dead-time-most = { $isotope } auf Platz { $position } ({ $vial }): { $rate } Impulse/s erreichen oder übersteigen { $most } Impulse/s, das Höchste, was ein Detektor mit verlängernder Totzeit von { $dead } geben kann: verdünnen, analog messen, Totzeit oder Modell berichtigen oder die Messung ausschließen

refusal-run-without-recipe = für ihn ist kein Rezept genannt, und ohne Rezept bedeuten ihre Impulse nichts: eines schreiben (`limpid recipes --template --lang de` liefert den Anfang), mit der Zuordnung „recipe“ einlesen und für den Messlauf nennen (`limpid recipes --give`); aufgezeichnet: { $there }
refusal-recipe-vial = { $key }: Ein Gefäß „{ $vial }“ fehlt im Messlauf; es gibt { $there }
refusal-recipe-isotope = { $key }: keine Messwerte von { $isotope } im Messlauf; es gibt { $there }
