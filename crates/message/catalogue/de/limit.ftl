limit-is-below = { $analyte } { $result } liegt unter { $limit }: { $why }.
limit-is-above = { $analyte } { $result } liegt über { $limit }: { $why }.
limit-is-open = { $analyte } { $result } lässt sich von { $limit } nicht unterscheiden: { $why }.
limit-named = dem Grenzwert { $limit } für { $analyte } ({ $authority }, { $kind }; { $document }, { $edition }{ $provenance ->
    [seen] {""}
    [local] , von einer Person eingetragen
   *[other] , aus dem Gedächtnis
})
limit-named-range = dem Bereich { $low } bis { $high } für { $analyte } ({ $authority }, { $kind }; { $document }, { $edition }{ $provenance ->
    [seen] {""}
    [local] , von einer Person eingetragen
   *[other] , aus dem Gedächtnis
})
limit-under-with = Der wahre Wert liegt mit der Wahrscheinlichkeit { $p } unter dem Grenzwert; verlangt: { $guard }
limit-inside-with = Der wahre Wert liegt mit der Wahrscheinlichkeit { $p } im Bereich; verlangt: { $guard }
limit-bound-and-range = Eine obere Grenze allein sagt nichts über einen Bereich
limit-not-sensitive = nur eine obere Schranke ist bekannt, und sie liegt über dem Grenzwert: Ein empfindlicheres Verfahren, oder Blindproben, die den ganzen Weg der Flasche trafen, würden entscheiden
limit-over-range = Der Messwert überschritt seinen Messbereich, der am oder über dem Grenzwert endet
limit-over-range-under = Der Messwert überschritt seinen Messbereich, der unter dem Grenzwert endet: verdünnen und neu messen
limit-guard-none = kein Sicherheitsband: Der Wert selbst entscheidet
limit-guard-probability = { $share } Wahrscheinlichkeit
limit-guard-band = ein Sicherheitsband von { $r } U, U = 2u
limit-recalled-yet = aus dem Gedächtnis angegebene Grenzwerte sind noch mit ihrem Dokument zu vergleichen
limit-comparison = ein Vergleich mit Grenzwerten; wofür das Wasser genutzt werden darf, sagt das örtliche Gesundheitsamt
limit-against = Gegen Grenzwerte
limit-method = Ergebnisse gegen Grenzwerte
limit-method-text = Jedes Ergebnis wird nach der Entscheidungsregel der jeweiligen Behörde gegen den Grenzwert gehalten; die Wahrscheinlichkeit, dass der wahre Wert darunter liegt, normal oder Student-t um das Ergebnis, steht daneben. Ein Wert ohne Unsicherheit wird nach dem Wert selbst beantwortet. Der strengste Grenzwert jedes Stoffs ist das niedrigste obere Ende in einer Einheit und Bezugsform unter allen Tabellen, die eigenen einer Person eingeschlossen.
limit-introduction = Vergleich mit veröffentlichten Grenzwerten und solchen, die eine Person hinzugefügt hat, wie sie am Tag der jeweiligen Probe gelten. Er sagt nichts darüber, wofür das Wasser genutzt werden darf.
limit-nearest = Das höchste Ergebnis jedes Stoffs gegen den strengsten Grenzwert: Überschreitungen zuerst, Gesundheit vor Geschmack und Betrieb, dann das nächste
limit-conductivity-stands-at = Die Leitfähigkeit steht bei der Temperatur ihres Grenzwerts, { $to }.
limit-marks = * aus dem Gedächtnis: noch mit dem Dokument zu vergleichen. Verworfene Ergebnisse fehlen. Nicht bezeichnete Grenzwerte wurden gesehen.
limit-against-local = Gegen örtliche Grenzwerte
limit-result-is = das Ergebnis liegt
limit-probability-under = P(darunter)
limit-whose = { $authority }, { $kind } ({ $concern })
limit-whose-recalled = { $authority }, { $kind } ({ $concern }) *
limit-not-tested = Nicht geprüft: { $names }.
limit-not-tested-nor-microbes = Nicht geprüft: Keime, { $names }.
limit-microbes-not-tested = Nicht geprüft: Keime.
limit-who-decides = Wer entscheidet: das örtliche Gesundheitsamt.
limit-guard-of-limit = die Entscheidungsregel jedes Grenzwerts
limit-concern-health = Gesundheit
limit-concern-taste = Geschmack, Geruch, Aussehen
limit-concern-operation = Betrieb
limit-rule-simple-acceptance = nach einfacher Annahme entscheidet der Wert selbst
limit-rule-guarded-acceptance = nach Annahme mit Sicherheitsband verlangt „darunter“ einen Abstand von U = 2u
limit-rule-guarded-rejection = nach Ablehnung mit Sicherheitsband verlangt „darüber“ einen Abstand von U = 2u
limit-rule-under = { $rule }; der wahre Wert liegt mit der Wahrscheinlichkeit { $p } unter dem Grenzwert
limit-rule-inside = { $rule }; der wahre Wert liegt mit der Wahrscheinlichkeit { $p } im Bereich
limit-answer-within-uncertainty = { $answer }, innerhalb seiner Unsicherheit
limit-not-comparable = { $analyte } lässt sich mit { $limit } nicht vergleichen: { $why }.
limit-sulfide-total = Gesamtsulfid, und damit auch sein undissoziierter Teil: { $why }
limit-sulfide-total-alone = Gesamtsulfid allein; wie viel davon undissoziiertes H2S ist, sagen erst pH-Wert und Temperatur: { $why }
limit-sulfide-both = Gesamtsulfid und undissoziiertes H2S ({ $undissociated }) gleichermaßen: { $why }
limit-sulfide-differ = Gesamtsulfid: { $total }; undissoziiertes H2S ({ $undissociated }): { $part }; welches von beiden gemeint ist, sagt der Grenzwert nicht
limit-basis-open = „{ $unit }“ lässt die Bezugsform offen, und die Antwort hängt an ihr: Zu schreiben ist „{ $write }“ oder „{ $or }“
limit-basis-open-same = „{ $unit }“ lässt die Bezugsform offen, und beide geben dieselbe Antwort; zu schreiben ist „{ $write }“ oder „{ $or }“
limit-conductivity-at = { $measured } bei { $from }, umgerechnet auf { $to }, wo der Grenzwert gilt: { $why }
limit-conductivity-at-other = eine Leitfähigkeit bei { $from } wird hier nicht auf { $to } umgerechnet, nur eine bei 20 oder 25 °C
limit-without-u = Unsicherheit nicht angegeben; dem Wert nach das { $times }-Fache des Grenzwerts
limit-without-u-inside = Unsicherheit nicht angegeben; dem Wert nach { $gap } innerhalb des näheren Endes des Bereichs
limit-without-u-outside = Unsicherheit nicht angegeben; dem Wert nach { $gap } außerhalb des näheren Endes des Bereichs
limit-below-not-stated = eine Grenze, von der niemand sagt, was sie ist
limit-below-bound = eine obere Schranke des wahren Werts
limit-below-detection-limit = eine Nachweisgrenze
limit-below-quantification-limit = eine Bestimmungsgrenze
limit-below-reporting-limit = eine Berichtsgrenze
limit-below-critical-value = ein Erkennungswert
limit-below-is-bound = nicht nachgewiesen; die Zahl ist { $what }, die den wahren Wert begrenzt, und sie liegt am oder unter dem Grenzwert
limit-below-by-value = berichtet unter einer Zahl, die unter dem Grenzwert liegt; sie ist { $what }, die den wahren Wert nicht begrenzt, und die Unsicherheit ist nicht angegeben
limit-below-at-limit = berichtet unter einer Zahl, die der Grenzwert selbst ist; sie ist { $what }, die den wahren Wert nicht begrenzt: Eine Nachweisgrenze täte es
limit-below-critical-under = nicht nachgewiesen; die Zahl ist ein Erkennungswert, wahre Werte bis etwa { $most } können unerkannt bleiben, und das liegt am oder unter dem Grenzwert
limit-below-critical-over = nicht nachgewiesen; die Zahl ist ein Erkennungswert, und wahre Werte bis etwa { $most } können unerkannt bleiben, was über dem Grenzwert liegt
limit-goal-not-found = ein Ziel von null lässt sich durch keine Messung zeigen; nicht gefunden, und gesehen worden wäre { $seen } und mehr
limit-goal-found = ein Ziel von null, und es wurde gefunden
limit-goal-found-over = ein Ziel von null, und es wurde gefunden, mit einem Verfahren der Nachweisgrenze { $seen }
limit-goal-found-without-limit = ein Ziel von null, und ein Wert ist berichtet; weder seine Unsicherheit noch eine Nachweisgrenze ist angegeben
limit-goal-open = ein Ziel von null; ob es gefunden wurde, lässt sich nicht sagen, eine Nachweisgrenze würde es sagen
limit-demand-u-met = U = { $u }, und am Grenzwert höchstens { $most }, wie verlangt
limit-demand-u-not-met = U = { $u } ist zu groß: Am Grenzwert ist höchstens { $most } verlangt
limit-demand-u-open = U = { $u } bei diesem Gehalt sagt nichts über U am Grenzwert, wo höchstens { $most } verlangt ist
limit-demand-u-not-stated = Unsicherheit nicht angegeben; verlangt ist U von höchstens { $most }
limit-demand-quantification-met = die Bestimmungsgrenze { $quantified } beträgt höchstens { $share } des Grenzwerts, wie verlangt
limit-demand-quantification-not-met = die Bestimmungsgrenze { $quantified } ist zu hoch: Verlangt sind höchstens { $share } des Grenzwerts
limit-demand-quantification-not-stated = keine Bestimmungsgrenze angegeben; verlangt sind höchstens { $share } des Grenzwerts
limit-coming = { $substance }: { $authority } ab { $year }: { $limit }
limit-coming-all = Am Tag der Probe noch nicht in Kraft und ohne Einfluss auf die Antwort: { $limits }.
limit-health-value = Gesundheit: { $limit } ({ $authority }), { $answer }
limit-is-for-health = dieser Grenzwert
limit-no-health-value = keiner in den Tabellen
limit-nearest-health = nächster Wert für die Gesundheit
limit-method-short = { $substance } in { $bottle }: Das Verfahren erfüllt nicht, was { $authority } verlangt: { $why }.
