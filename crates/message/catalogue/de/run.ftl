run-results = Ergebnisse
run-path-of = Der Weg des Elements { $element }
run-the-run = Der Messlauf { $run }
run-at-well = { $element } in { $well }
run-found = { $element } in { $well }: { $result }.
run-value = { $amount } (95 %, k = { $k })
run-value-unstated = unter einer Grenze, die der Bericht nicht nennt
run-value-untold = ein Wert, den die Aufzeichnung nicht nennt
run-value-and-state = { $value }, { $state }
run-result-and-share = { $result }, { $share }
run-quantified = bestimmbar
run-not-detected = nicht nachgewiesen
run-estimated = geschätzt
run-above-range = über dem Messbereich
run-why-accepted = Anerkannt: Alle entscheidenden Prüfungen sind erfüllt.
run-why-provisional = Vorläufig:
run-why-rejected = Verworfen:
run-verdicts = { $results ->
    [one] Von { $results } Ergebnis von Brunnenwasser in diesem Bericht ist { $accepted } anerkannt, { $provisional } vorläufig, { $rejected } verworfen; es nennt seine Gründe.
   *[other] Von { $results } Ergebnissen von Brunnenwasser in diesem Bericht sind { $accepted } anerkannt, { $provisional } vorläufig, { $rejected } verworfen; jedes nennt seine Gründe.
}
run-subject = { $well }, { $element }, { $fraction }
run-subject-of-bottle = { $subject }, Flasche { $bottle }
run-fraction = { $fraction ->
    [unfiltered] unfiltriert
    [filtered] filtriert
   *[other] { $fraction }
}
run-concentrations = { $well }: Konzentrationen im Wasser ({ $fractions }) und was sich nachweisen lässt
run-isotopes-at = { $isotopes }, { $resolution ->
    [low] niedrig
    [medium] mittel
    [high] hoch
   *[other] { $resolution }
}
run-limits-explained = L_C: Ein Nettowert darüber gilt als nachgewiesen. L_D: ein Gehalt, der einmal in zwanzig Fällen übersehen würde. Beide auf der Netto-Skala.
run-as-acidified = Die Werte gelten für die Flasche nach dem Ansäuern; Isotope sind Massenzahlen mit der Massenauflösung.
run-waters-share = Anteil des Wassers
run-left-by-blanks = mit dem Wasser gekommen
run-came-with-water = Mit dem Wasser gekommen: { $left }.
run-note-for = { $elements }: { $note }
run-overview = { $element } in jeder Flasche Brunnenwasser
run-overview-described = Ein Intervall je Flasche für { $element }, nach Brunnen geordnet; nicht Nachgewiesenes als Balken von null bis zu seiner Grenze.
run-overview-under = 95-%-Intervalle; die Form der Zeichen gibt das Urteil an.
run-overview-caption = { $element } Flasche für Flasche.
run-measured = { $vials ->
    [one] { $vials } Gefäß
   *[other] { $vials } Gefäße
}, { $readings ->
    [one] { $readings } Messung
   *[other] { $readings } Messungen
}
run-no-instrument = Gerät nicht angegeben
run-recipe = Rezept { $recipe } (Fassung { $version }).
run-calibration = Kalibrierung von { $element } { $isotopes }
run-calibration-described = Signal der Standards von { $element } gegen ihre zugewiesene Konzentration mit der angepassten Geraden und ihren Residuen.
run-calibration-under = Gewichtet mit 1/u²; darunter die Residuen mit ihren 95-%-Intervallen.
run-assigned = zugewiesene Konzentration, ng/L
run-response = Signal, Impulse/s
run-calibration-caption = Kalibriergerade von { $element }: p der mangelnden Anpassung { $p }.
run-blanks = Blindproben des Messlaufs, { $element }
run-blanks-described = Blindproben von { $element } nach Art mit Erkennungs- und Nachweisgrenze.
run-blanks-under = Jede Art enthält die darüber und eine Station mehr.
run-blanks-net = Jede Art enthält die darüber und eine Station mehr. Das Mittel, das von Proben abgezogen wird, { $blank }, ist abgezogen: Blindproben und Grenzen stehen auf einer Skala.
run-blanks-caption = Blindproben von { $element } nach Art.
run-taken-out = Von einer Person herausgenommen, mit verzeichnetem Grund: { $vials }.
run-in-time = Der Messlauf in der Zeit: interner Standard und Kontrollen, { $element }
run-in-time-described = Interner Standard jedes Gefäßes in Prozent des ersten, und Wiederfindung der Driftkontrollen und Kontrollproben.
run-in-time-under = Interner Standard { $standard }, danach was die Kontrollen nach allen Berichtigungen ergaben.
run-in-time-caption = Der Messlauf vom ersten Gefäß zum letzten.
run-can-see = Was der Messlauf sehen kann
run-counts-per-level = Impulse/s je ng/L
run-drift-left = Rest der Drift
run-their-mean = ihr Mittel
run-drift-left-explained = Rest der Drift: Änderung der Empfindlichkeit über den Messlauf, die der interne Standard nicht herausnahm; die Driftkontrollen taten es.
run-recoveries = Wiederfindung: Aufstockungen des Wassers in der Höhe seines Gehalts und die Kontrollprobe
run-field-spikes = Aufstockungen im Feld, %
run-laboratory-spikes = Aufstockungen im Labor, %
run-spikes-speak = Aufstockungen wurden im Wasser eines Brunnens gemacht; sie sprechen für dieses Wasser.
run-field-note = Feldnotiz zu { $bottle }: „{ $note }“.

run-not-decided = nicht entschieden: dieses Gefäß streut
run-value-and-detection-limit = { $value } (Nachweisgrenze { $limit })
