attribution-title = Wessen Metall es ist
attribution-how = Alle Flaschen einer Probenahme, Blindproben und Proben, werden gemeinsam danach angepasst, welchen Einflüssen jede ausgesetzt war; keine Quelle kann negativ sein, und ein seltener Ausreißer zählt kaum. Das berichtete Ergebnis bleibt das einfache, abzüglich der Blindprobe; das Eigene des Wassers nach allen Flaschen steht daneben.
attribution-interval = { $value } ({ $low } bis { $high })
attribution-at-most = höchstens { $most }
attribution-of-trip = { $metal }, Probenahme { $trip }
attribution-blanks-not-fitted = Die Blindproben allein wurden nicht angepasst: { $why }.
attribution-by = Nach { $scope }.
attribution-not-asked = Nicht gefragt: { $what }.
attribution-sources = { $metal }: was jede Quelle brachte, nach den Blindproben
attribution-sources-invented = { $metal }: was jede Quelle brachte, nach den Blindproben; erfundene Daten
attribution-strength = Stärke (95-%-Intervall)
attribution-pg-per = pg je { $unit ->
    [bottle] Flasche
    [journey] Transport
    [filter] Filter
    [opening] Öffnung
   *[other] { $unit }
}
attribution-not-seen = nicht gesehen
attribution-water-not-fitted = { $well }: nicht angepasst; { $why }.
attribution-water-not-told = { $well }: Das Eigene des Wassers lässt sich nicht sagen.
attribution-no-line = { $well }: { $why }.
attribution-fills = { $metal } in Flaschen von { $well }, verschieden hoch gefüllt
attribution-fills-under = Die Steigung ist das Wasser, der Wert bei Volumen null das, was Flasche und Hände brachten.
attribution-fill-volume = Füllvolumen, mL
attribution-metal-in-bottle = Metall in der Flasche, pg
attribution-at-zero-bottle = bei null: Flasche und Hände, pg
attribution-flows = { $metal } in { $well } bei verschiedenen Schüttungen
attribution-flows-under = Der Wert bei 1/Schüttung = 0 ist der Grundwasserleiter, die Steigung das Rohr.
attribution-inverse-flow = 1/Schüttung, min/L
attribution-concentration = Konzentration, ng/L
attribution-at-zero-aquifer = bei null: der Grundwasserleiter, ng/L
attribution-bend = Die Prüfung der Geraden gegen eine Krümmung: p = { $p }.
attribution-one-bottle = eine Flasche, mit ihrem 95-%-Intervall
attribution-line-with-band = Gerade mit ihrem Band
attribution-value-at-zero = { $value } ({ $low } bis { $high })
attribution-own = Was alle Flaschen zusammen sagen, neben dem einfachen Ergebnis
attribution-own-and-plain = Einfacher Abzug der Blindprobe, und alle Flaschen gemeinsam angepasst, ng/L
attribution-plain = einfach
attribution-own-by-all = was alle Flaschen zusammen sagen
attribution-share-by-blank = Anteil nach der Bilanz
attribution-not-alone = nicht das des Wassers allein
attribution-own-note = In Klammern 95-%-Intervalle. Das einfache Ergebnis ist das beurteilte und berichtete; sein Anteil ist der der Bilanz. Was alle Flaschen zusammen sagen, ist ein Anhang dazu: ohne das Rohr, wo Flaschen bei verschiedenen Schüttungen genommen sind. Höchstens: Diese Flaschen trennen das Wasser nicht von einer Quelle; die Liste oben nennt die Blindprobe, die es täte.
attribution-not-alone-note = Nicht das des Wassers allein: Das Rohr über die Kontaktzeit des Programms hinaus, oder eine Luft, die keine Blindprobe traf, ist nicht davon zu unterscheiden; die Tabelle der Ergebnisse hat diesen Teil.
attribution-aquifer-and-pipe = Grundwasserleiter und Rohr nach Proben bei verschiedener Schüttung
attribution-p-of-bend = p der Krümmung
attribution-in-inverse-flow = in 1/Schüttung
attribution-a-line = eine Gerade
attribution-bends = gekrümmt
attribution-particles = Eine Krümmung zu mehr Metall bei größerer Schüttung können Teilchen sein: filtriert neben unfiltriert, oder Fe und Al, zeigen es.
attribution-patterns = Muster der Metalle neben bekannten Quellen
attribution-patterns-note = Ein Muster, das passt, ist ein Hinweis, wo zu suchen ist, kein Beweis: Metall löst sich nicht im Verhältnis der Legierung, Mengen gelten darum als auf ein Drittel genau bekannt. Die Muster, und woher sie kommen:
attribution-signature = { $name } ({ $metals }): { $from }

attribution-bottle = Flasche
attribution-acid = Säure
attribution-days = Tage in der Flasche
attribution-journey = Transport
attribution-filter = Filter
attribution-openings = Öffnungen
attribution-cabinet = Minuten im Schrank
attribution-open-air = Minuten in freier Luft
attribution-pipe = Rohr
attribution-water-of = das Wasser von { $well }

attribution-begins-bottle = Flasche
attribution-begins-acid = Säure
attribution-begins-days = Tage in der Flasche
attribution-begins-journey = Transport
attribution-begins-filter = Filter
attribution-begins-openings = Öffnungen
attribution-begins-cabinet = Minuten im Schrank
attribution-begins-open-air = Minuten in freier Luft
attribution-begins-pipe = Rohr
attribution-begins-water-of = Das Wasser von { $well }

attribution-apart-bottle = eine Blindprobe in einer Flasche einer anderen Charge
attribution-apart-acid = eine Flaschenblindprobe mit doppelter Säure
attribution-apart-days = eine Flaschenblindprobe, einige Wochen früher gefüllt,
attribution-apart-journey = eine Flaschenblindprobe, die zu Hause bleibt,
attribution-apart-filter = eine Feldblindprobe ohne den Filter
attribution-apart-openings = eine Feldblindprobe, die doppelt so oft geöffnet wird,
attribution-apart-cabinet = eine Feldblindprobe, die doppelt so lange im Schrank offen steht,
attribution-apart-open-air = eine Feldblindprobe, die an diesem Brunnen in freier Luft geöffnet wird,
attribution-apart-pipe = eine Probe bei einer anderen Schüttung
attribution-and = { $before } und { $last }
attribution-together = { $sources } traten in jeder Flasche zusammen auf und sind als eine Quelle angepasst; { $apart } würde es zeigen.
attribution-rose-together = { $sources } stiegen und fielen in diesen Flaschen miteinander und lassen sich nicht trennen; { $apart } würde es zeigen.
attribution-rose-together-for-good = { $sources } stiegen und fielen in diesen Flaschen miteinander und lassen sich nicht trennen.
attribution-not-on-record = { $exposure }: nicht verzeichnet für { $bottles }
attribution-not-on-record-for-many = { $exposure }: für { $first }, { $second } und { $more } weitere nicht verzeichnet
attribution-blanks-of-trip = Blindproben von { $trip }, { $bottles ->
    [one] { $bottles } Flasche
   *[other] { $bottles } Flaschen
}
attribution-blanks-of-recipe = Blindproben aller Probenahmen nach diesem Rezept, { $bottles ->
    [one] { $bottles } Flasche
   *[other] { $bottles } Flaschen
}

attribution-fills-on-line = Das Wasser enthält { $water-expanded } (k = 2), und Flasche und Hände brachten { $brought-expanded } (k = 2): Die Punkte liegen auf einer Geraden.
attribution-fills-bend = Das Wasser enthält { $water-expanded } (k = 2), und Flasche und Hände brachten { $brought-expanded } (k = 2); aber die Punkte weichen im Bogen von einer Geraden ab: Was die Flasche bringt, hängt vom Volumen ab, und Steigung und Achsenabschnitt trennen die beiden nicht.
attribution-flows-on-line = Ohne das Rohr enthielte das Wasser { $aquifer-expanded } (k = 2); das Rohr gibt { $pipe-expanded } (k = 2) ab: Die Punkte liegen auf einer Geraden in 1/Schüttung.
attribution-flows-rise = Ohne das Rohr enthielte das Wasser { $aquifer-expanded } (k = 2); das Rohr gibt { $pipe-expanded } (k = 2) ab; aber mit größerer Schüttung steigt der Gehalt: Es können Teilchen mitgerissen sein; filtriert neben unfiltriert, Fe und Al ansehen.
attribution-flows-level-off = Ohne das Rohr enthielte das Wasser { $aquifer-expanded } (k = 2); das Rohr gibt { $pipe-expanded } (k = 2) ab; aber die Punkte bilden einen Bogen in 1/Schüttung: Das Metall des Rohrs nimmt mit der Kontaktzeit immer langsamer zu, der Achsenabschnitt ist also zu hoch oder zu niedrig.

attribution-no-bottles = Flaschen und Quellen: 0 gegeben, mindestens 1 nötig; die Flaschen der Probenahme und die gefragten Quellen angeben
attribution-no-blank = Blindproben: 0 gegeben, mindestens 1 nötig; ohne eine Blindprobe kann alles das des Wassers sein
attribution-few-blanks = Blindproben: { $have } gegeben, mindestens { $need } nötig; nach { $need ->
    [one] { $need } Quelle ist gefragt
   *[other] { $need } Quellen ist gefragt
}: für jede eine Blindprobe nehmen oder Quellen zusammenfassen, die immer zusammen auftreten
attribution-few-bottles = Flaschen: { $have } gegeben, mindestens { $need } nötig; gefragt ist nach { $sources ->
    [one] { $sources } Quelle
   *[other] { $sources } Quellen
} und { $waters ->
    [one] { $waters } Wasser
   *[other] { $waters } Wässern
}: mehr Blindproben nehmen oder Quellen zusammenfassen, die immer zusammen auftreten
attribution-volume = Volumen der Flasche { $bottle }: gefunden { $volume }, erwartet mehr als 0 mL
attribution-mass = Masse der Flasche { $bottle }: gefunden { $mass } mit u { $u }, erwartet die Nettomasse, negativ oder nicht, mit u über 0; nicht Nachgewiesenes geht mit seinem Nettowert und u ein
attribution-exposure = { $exposure }, Flasche { $bottle }: gefunden { $found }, erwartet 0 oder mehr
attribution-few-points = Punkte der Geraden: { $have } gegeben, mindestens 3 nötig; zwei Punkte liegen immer auf einer Geraden
attribution-one-place = verschiedene x der Geraden: 1 gegeben, mindestens 2 nötig; verschieden hoch füllen, oder den Brunnen verschieden stark fließen lassen
attribution-point = Punkt { $point }: gefunden x { $x }, y { $y }, u { $u }, erwartet endliche Zahlen mit u über 0
attribution-volume-of-fill = Volumen der Füllung { $fill }: gefunden { $volume }, erwartet mehr als 0 mL
attribution-flow-of-sample = Schüttung der Probe { $sample }: gefunden { $flow }, erwartet mehr als 0 L/min
attribution-not-settled = Die Gewichte der gemeinsamen Anpassung standen nach { $rounds ->
    [one] { $rounds } Runde
   *[other] { $rounds } Runden
} noch nicht still: ihre Werte und Intervalle gelten auf zwei Stellen.
attribution-recovery-divided-out = { $water }: { $value } ist durch eine Wiederfindung von { $recovery } geteilt; davor waren es { $before }.
attribution-line-not-settled = { $line } Ihre Streuung über u hinaus wurde nicht gefunden, ihr u ist also zu klein.
