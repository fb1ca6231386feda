quality-control-water = Kontrollwasser
quality-drift-checks = Driftkontrollen
quality-field-spikes = Zusätze im Feld
quality-laboratory-spikes = Zusätze im Labor
quality-mean-of-the-blanks = Mittel der Leerproben
quality-single-blanks = einzelne Leerproben
quality-beyond-three = einer jenseits von 3 sd
quality-beyond-two = zwei von drei jenseits von 2 sd
quality-beyond-one = vier von fünf jenseits von 1 sd
quality-on-one-side = acht auf einer Seite
quality-in-a-row = sechs steigend oder fallend
quality-cumulative-sum = kumulative Summe über ihrer Grenze
quality-moving-average = gleitendes Mittel über seiner Grenze
quality-another-rule = eine andere Regel
quality-high = { $rule }, hoch
quality-low = { $rule }, niedrig
quality-long = { $points ->
    [one] { $rule }, über { $points } Punkt
   *[other] { $rule }, über { $points } Punkte
}
quality-kept = Dieser Lauf hält die Karten über { $runs } Läufe ein: { $charts }.
quality-few = { $runs ->
    [one] Mit so wenigen lassen sich keine Karten angeben ({ $charts }): { $runs } Lauf, mindestens { $needed } sind nötig.
   *[other] Mit so wenigen lassen sich keine Karten angeben ({ $charts }): { $runs } Läufe, mindestens { $needed } sind nötig.
}
quality-broken = Die Karte „{ $chart }“ ({ $element }) über { $runs } Läufe: Dieser Lauf, bei { $now }, wo die ersten { $baseline } Punkte { $centre } mit sd { $sd } ergaben, bricht eine Regel ({ $rules }).
quality-years-few = { $runs ->
    [one] Was die Jahre über u sagen, lässt sich mit so wenigen nicht angeben: { $runs } Lauf mit Kontrollwasser, mindestens { $needed } sind nötig.
   *[other] Was die Jahre über u sagen, lässt sich mit so wenigen nicht angeben: { $runs } Läufe mit Kontrollwasser, mindestens { $needed } sind nötig.
}
quality-no-blanks = keine Leerproben
quality-blanks = einzelne Leerproben streuen um { $sd }
quality-years-held = Über { $runs } Läufe kam das Kontrollwasser für { $element } mit einer Abweichung von { $bias } ± { $between } zwischen den Läufen wieder, { $blanks }: Das ergibt u { $u } neben { $budget } der Unsicherheitsbilanz; die Bilanz hält.
quality-years-not-held = Über { $runs } Läufe kam das Kontrollwasser für { $element } mit einer Abweichung von { $bias } ± { $between } zwischen den Läufen wieder, { $blanks }: Das ergibt u { $u } neben { $budget } der Unsicherheitsbilanz; die Bilanz lässt etwas aus.
quality-value = { $value } ± { $u }
quality-value-later = { $years } Jahre später { $value } ± { $u }
quality-came-back = { $recovery } ± { $u } (u) des ersten Werts kamen wieder
quality-no-recovery = eine Wiederfindung lässt sich nicht angeben, der erste Wert ist zu unsicher
quality-no-change = { $bottle } enthielt an { $element } in { $first-run } { $first } und in { $last-run } { $last } (u): { $back }; keine Änderung über die Unsicherheiten hinaus.
quality-loss = { $bottle } enthielt an { $element } in { $first-run } { $first } und in { $last-run } { $last } (u): { $back }; mit der Zeit ein Verlust über die Unsicherheiten hinaus: Metall kann an der Wand oder in einem Feststoff sitzen.
quality-gain = { $bottle } enthielt an { $element } in { $first-run } { $first } und in { $last-run } { $last } (u): { $back }; mit der Zeit ein Zuwachs über die Unsicherheiten hinaus: Flasche, Säure oder Luft können Metall abgegeben haben.
quality-trend = { $finding } Über { $visits } Messungen beträgt die Änderung { $change } ± { $u } im Jahr (u).
quality-over-the-runs = Qualität über die Läufe
quality-one-run = Es gibt einen Lauf. Was von Lauf zu Lauf gilt, lässt sich daraus nicht sagen: Karten brauchen { $runs } Läufe, die Haltbarkeit einer Flasche zwei.
quality-before = { $runs } Läufe, von { $first } bis { $last }. Ein Punkt ist das Mittel eines Laufs; Mittellinie und sd kommen aus den ersten Läufen, und eine Regel, die ein späterer Lauf bricht, steht bei den Befunden seiner Ergebnisse.
quality-chart = { $chart } von { $element }, Lauf für Lauf
quality-chart-described = { $chart } von { $element } in jedem Lauf mit Mittellinie und Grenzen.
quality-bars = Balken: 2 u des Laufs. Die erste gebrochene Regel steht neben ihrem Punkt.
quality-chart-is = Die Karte { $state }.
quality-chart-caption = { $chart } von { $element } in jedem Lauf: { $state }.
quality-recovery-axis = Wiederfindung, %
quality-blank-axis = Leerprobe, { $unit }
quality-points-few = { $found ->
    [one] lässt sich mit so wenigen nicht angeben: { $found } Punkt von mindestens { $needed }
   *[other] lässt sich mit so wenigen nicht angeben: { $found } Punkte von mindestens { $needed }
}
quality-not-drawn = lässt sich nicht zeichnen: Die Punkte streuen nicht, oder einer von ihnen ist keine Zahl
quality-none-broken = keine Regel von { $points } Punkten gebrochen
quality-broken-at = gebrochen bei { $places }
quality-place = { $point } ({ $rules })
quality-places = { $one }; { $more }
quality-charts = Karten aller Läufe: Laufregeln, kumulative Summe, gleitendes Mittel
quality-points = Punkte
quality-centre = Mittellinie
quality-is-kept = eingehalten
quality-rules = Regeln
quality-skewed = Leerproben sind schief verteilt, mit seltenen Ausreißern: Eine Regel, die eine einzelne Leerprobe bricht, kann Zufall sein.
quality-drift-checks-see-less = Driftkontrollen berichtigen auch die Drift ihres Laufs, ihre Karte sieht darum weniger als die des Kontrollwassers.
quality-run-by-run = { $element } Lauf für Lauf
quality-run = Lauf
quality-start = Beginn
quality-no-change-seen = keine Änderung zu sehen
quality-perhaps = vielleicht
quality-a-loss = Verlust
quality-a-gain = Zuwachs
quality-first-too-uncertain = erster Wert zu unsicher
quality-same-bottle = Dieselbe Flasche noch einmal gemessen: was aus dem Metall wurde
quality-first = zuerst
quality-last = zuletzt
quality-years-between = Jahre dazwischen
quality-recovery = Wiederfindung, %
quality-stable = haltbar
quality-which-bottles = Für Blei alle Flaschen, von den anderen Elementen diejenigen, die sich um mehr als zwei Standardunsicherheiten änderten; von hundert Paaren tun das etwa fünf durch Zufall.
quality-independent = Die u beider Läufe gelten als unabhängig. Der frühere Wert bleibt als frühere Fassung in der Aufzeichnung.
quality-this-few = mit so wenigen nicht anzugeben
quality-years-say = Was die Jahre über u sagen, neben der Unsicherheitsbilanz jeder Zahl
quality-runs = Läufe
quality-bias = Abweichung des Kontrollwassers
quality-between-runs = zwischen Läufen
quality-u-of-value = u seines Werts
quality-single-blanks-sd = einzelne Leerproben, sd
quality-another-water = Das Kontrollwasser ist ein anderes Wasser als die Proben. Diese Teile ersetzen keine Unsicherheit; die Befunde jedes Ergebnisses stellen beide nebeneinander.
