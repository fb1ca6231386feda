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
quality-kept = Dieser Lauf hält die Karten über { $runs } Läufe ein: { $charts }.
quality-few = { $runs ->
    [one] Mit so wenigen lassen sich keine Karten angeben ({ $charts }): { $runs } Lauf, mindestens { $needed } sind nötig.
   *[other] Mit so wenigen lassen sich keine Karten angeben ({ $charts }): { $runs } Läufe, mindestens { $needed } sind nötig.
}
quality-broken = Die Karte „{ $chart }“ ({ $element }) über { $runs } Läufe: Dieser Lauf, bei { $now }, wo die ersten { $baseline } { $centre } mit sd { $sd } ergaben, bricht eine Regel ({ $rules }).
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
quality-trend = { $finding } Über { $visits } Messungen ändert es sich um { $change } ± { $u } im Jahr (u).
