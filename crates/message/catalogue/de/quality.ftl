quality-control-water = Kontrollprobe
quality-drift-checks = Driftkontrollen
quality-field-spikes = Aufstockungen im Feld
quality-laboratory-spikes = Aufstockungen im Labor
quality-mean-of-the-blanks = Mittel der Blindproben
quality-single-blanks = einzelne Blindproben
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
quality-kept = Dieser Messlauf hält die Karten über { $runs ->
    [one] { $runs } Messlauf
   *[other] { $runs } Messläufe
} ein: { $charts }.
quality-few = { $runs ->
    [one] Mit so wenigen lassen sich keine Karten angeben ({ $charts }): { $runs } Messlauf, mindestens { $needed ->
            [one] { $needed } ist nötig
           *[other] { $needed } sind nötig
        }.
   *[other] Mit so wenigen lassen sich keine Karten angeben ({ $charts }): { $runs } Messläufe, mindestens { $needed ->
            [one] { $needed } ist nötig
           *[other] { $needed } sind nötig
        }.
}
quality-broken = Die Karte „{ $chart }“ ({ $element }) über { $runs ->
    [one] { $runs } Messlauf
   *[other] { $runs } Messläufe
}: Dieser Messlauf, bei { $now }, wo { $baseline ->
    [one] der erste Punkt { $centre } mit sd { $sd } ergab
   *[other] die ersten { $baseline } Punkte { $centre } mit sd { $sd } ergaben
}, bricht eine Regel ({ $rules }).
quality-years-few = { $runs ->
    [one] Was die Jahre über u sagen, lässt sich mit so wenigen nicht angeben: { $runs } Messlauf mit Kontrollprobe, mindestens { $needed ->
            [one] { $needed } ist nötig
           *[other] { $needed } sind nötig
        }.
   *[other] Was die Jahre über u sagen, lässt sich mit so wenigen nicht angeben: { $runs } Messläufe mit Kontrollprobe, mindestens { $needed ->
            [one] { $needed } ist nötig
           *[other] { $needed } sind nötig
        }.
}
quality-no-blanks = keine Blindproben
quality-blanks = einzelne Blindproben streuen um { $sd }
quality-years-held = Über { $runs ->
    [one] { $runs } Messlauf
   *[other] { $runs } Messläufe
} wurde die Kontrollprobe für { $element } mit einer Abweichung von { $bias } ± { $between } zwischen den Messläufen wiedergefunden, { $blanks }: Das ergibt u { $u } neben { $budget } der Unsicherheitsbilanz; die Bilanz hält.
quality-years-not-held = Über { $runs ->
    [one] { $runs } Messlauf
   *[other] { $runs } Messläufe
} wurde die Kontrollprobe für { $element } mit einer Abweichung von { $bias } ± { $between } zwischen den Messläufen wiedergefunden, { $blanks }: Das ergibt u { $u } neben { $budget } der Unsicherheitsbilanz; die Bilanz lässt etwas aus.
quality-value = { $value } ± { $u }
quality-value-later = { $years } Jahre später { $value } ± { $u }
quality-came-back = { $recovery } ± { $u } (u) des ersten Werts kamen wieder
quality-no-recovery = eine Wiederfindung lässt sich nicht angeben, der erste Wert ist zu unsicher
quality-no-change = { $bottle } enthielt an { $element } in { $first-run } { $first } und in { $last-run } { $last } (u): { $back }; keine Änderung über die Unsicherheiten hinaus.
quality-loss = { $bottle } enthielt an { $element } in { $first-run } { $first } und in { $last-run } { $last } (u): { $back }; mit der Zeit ein Verlust über die Unsicherheiten hinaus: Metall kann an der Wand oder in einem Feststoff sitzen.
quality-gain = { $bottle } enthielt an { $element } in { $first-run } { $first } und in { $last-run } { $last } (u): { $back }; mit der Zeit ein Zuwachs über die Unsicherheiten hinaus: Flasche, Säure oder Luft können Metall abgegeben haben.
quality-trend = { $finding } Über { $visits ->
    [one] { $visits } Messung
   *[other] { $visits } Messungen
} beträgt die Änderung { $change } ± { $u } im Jahr (u).
quality-over-the-runs = Qualität über die Messläufe
quality-one-run = Es gibt einen Messlauf. Was von Messlauf zu Messlauf gilt, lässt sich daraus nicht sagen: Karten brauchen { $runs ->
    [one] { $runs } Messlauf
   *[other] { $runs } Messläufe
}, die Haltbarkeit einer Flasche zwei.
quality-before = { $runs ->
    [one] { $runs } Messlauf, von
   *[other] { $runs } Messläufe, von
} { $first } bis { $last }. Ein Punkt ist das Mittel eines Messlaufs; Mittellinie und sd kommen aus den ersten Messläufen, und eine Regel, die ein späterer Messlauf bricht, steht bei den Befunden seiner Ergebnisse.
quality-chart = { $chart } von { $element }, Messlauf für Messlauf
quality-chart-described = { $chart } von { $element } in jedem Messlauf mit Mittellinie und Grenzen.
quality-bars = Balken: 2 u des Messlaufs. Die erste gebrochene Regel steht neben ihrem Punkt.
quality-chart-is = Die Karte { $state }.
quality-chart-caption = { $chart } von { $element } in jedem Messlauf: { $state }.
quality-recovery-axis = Wiederfindung, %
quality-blank-axis = Blindprobe, { $unit }
quality-points-few = { $found ->
    [one] lässt sich mit so wenigen nicht angeben: { $found } Punkt von mindestens { $needed }
   *[other] lässt sich mit so wenigen nicht angeben: { $found } Punkte von mindestens { $needed }
}
quality-not-drawn = lässt sich nicht zeichnen: Die Punkte streuen nicht, oder einer von ihnen ist keine Zahl
quality-none-broken = keine Regel von { $points ->
    [one] { $points } Punkt
   *[other] { $points } Punkten
} gebrochen
quality-broken-at = gebrochen bei { $places }
quality-place = { $point } ({ $rules })
quality-places = { $one }; { $more }
quality-charts = Karten aller Messläufe: Laufregeln, kumulative Summe, gleitendes Mittel
quality-points = Punkte
quality-centre = Mittellinie
quality-is-kept = eingehalten
quality-rules = Regeln
quality-skewed = Blindproben sind schief verteilt, mit seltenen Ausreißern: Eine Regel, die eine einzelne Blindprobe bricht, kann Zufall sein.
quality-drift-checks-see-less = Driftkontrollen berichtigen auch die Drift ihres Messlaufs, ihre Karte sieht darum weniger als die der Kontrollprobe.
quality-run-by-run = { $element } Messlauf für Messlauf
quality-run = Messlauf
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
quality-independent = Die u beider Messläufe gelten als unabhängig. Der frühere Wert bleibt als frühere Fassung in der Aufzeichnung.
quality-this-few = mit so wenigen nicht anzugeben
quality-years-say = Was die Jahre über u sagen, neben der Unsicherheitsbilanz jeder Zahl
quality-runs = Messläufe
quality-bias = Abweichung der Kontrollprobe
quality-between-runs = zwischen Messläufen
quality-u-of-value = u seines Werts
quality-single-blanks-sd = einzelne Blindproben, sd
quality-another-water = Die Kontrollprobe ist ein anderes Wasser als die Proben. Diese Teile ersetzen keine Unsicherheit; die Befunde jedes Ergebnisses stellen beide nebeneinander.
