web_plan-title = Einen Probenahmetag planen
web_plan-intro = Welche Flaschen und Blindproben entscheiden die Frage? Jede Kombination der Auswahl ist ein Entwurf. Gezeigt werden die, die kein anderer in Preis und Aussicht übertrifft, jeder mit dem, als was er nach den entscheidenden Prüfungen dieses Programms enden würde. Was das Formular offen lässt, kommt aus den Blindproben, Parallelproben und Aufstockungen der Aufzeichnung.
web_plan-ask-otherwise = Anders fragen
web_plan-the-question = Die Frage
web_plan-wells = Brunnen
web_plan-all-wells = Alle, wenn keiner angekreuzt ist.
web_plan-take-enough = So viel mitnehmen, dass
web_plan-prices = Preise, in Ihrer Währung
web_plan-choices = Auswahl: Zahlen mit Kommas; jede Kombination ist ein Entwurf
web_plan-own-numbers = Eigene Zahlen statt der aufgezeichneten
web_plan-rank = Entwürfe vergleichen
web_plan-what-is-asked = Bitte wählen, was gefragt ist.
web_plan-no-numbers = „{ $text }“ ist keine Zahl; gebraucht werden Zahlen mit Kommas dazwischen.
web_plan-no-bottles = Flaschen werden gezählt: 0, 1, 2 …
web_plan-too-many-designs = { $found ->
    [one] { $found } Kombination
   *[other] { $found } Kombinationen
}; auf einer Seite höchstens { $most }.
web_plan-not-measured = „{ $name }“ hat kein aufgezeichneter Messlauf gemessen{ $hint }.
web_plan-ask-anew = Die Frage dieser Planung lässt sich nicht mehr beantworten: bitte neu stellen.
web_plan-name-there = Ein Probenahmetag dieses Namens ist schon eingetragen.
web_plan-ends-accepted = anerkannt
web_plan-ends-provisional = vorläufig: { $why }
web_plan-would-end-as = Würde enden als
web_plan-no-spike-in = keine Aufstockung in { $wells }
web_plan-too-few-samples = { $n ->
    [one] { $n } Flasche je Brunnen, { $least } gefordert
   *[other] { $n } Flaschen je Brunnen, { $least } gefordert
}
web_plan-too-few-field-blanks = { $n ->
    [one] { $n } Feldblindprobe, { $least } gefordert
   *[other] { $n } Feldblindproben, { $least } gefordert
}
web_plan-too-few-bottle-blanks = { $n ->
    [one] { $n } Flaschenblindprobe, { $least } gefordert
   *[other] { $n } Flaschenblindproben, { $least } gefordert
}
web_plan-too-few-references = { $n ->
    [one] { $n } Messgefäß eines Referenzmaterials, { $least } gefordert
   *[other] { $n } Messgefäße eines Referenzmaterials, { $least } gefordert
}
web_plan-too-few-drift-checks = { $n ->
    [one] { $n } Driftkontrolle, { $least } gefordert
   *[other] { $n } Driftkontrollen, { $least } gefordert
}
web_plan-too-few-second-sources = { $n ->
    [one] { $n } Standard aus zweiter Quelle, { $least } gefordert
   *[other] { $n } Standards aus zweiter Quelle, { $least } gefordert
}
web_plan-chance-over = über 99,9 %
web_plan-chance-under = unter 0,1 %
web_plan-design-is = Entwurf { $n }: Preis { $price }, Aussicht { $chance }
web_plan-beside = +{ $price }: { $from } → { $to }
web_plan-not-believed = würde nicht geglaubt
web_plan-money-buys = Was das Geld bringt
web_plan-bottles = Flaschen
web_plan-designs-caption = { $n ->
    [one] { $n } Entwurf, den nichts übertrifft
   *[other] { $n } Entwürfe, die nichts übertrifft, der günstigste zuerst
}{ $cheaper ->
    [0] .
    [one] ; darunter { $cheaper } billigerer, der nicht geglaubt würde
   *[other] ; darunter { $cheaper } billigere, die nicht geglaubt würden
}
web_plan-designs-foot = Eine Zahl öffnet ihre Packliste; ▸ ist gezeigt. „Anerkannt“ hängt weiter an sauberer Arbeit, unversehrten Siegeln und einem Messlauf unter Kontrolle.
web_plan-no-design = Kein Entwurf steht zur Wahl.
web_plan-left-out = ausgelassen: { $why }
web_plan-to-pack = Zum Packen, Entwurf { $n }
web_plan-spares = { $n ->
    [one] { $n } Ersatzflasche, gereinigt wie die anderen (jede zehnte, mindestens zwei)
   *[other] { $n } Ersatzflaschen, gereinigt wie die anderen (jede zehnte, mindestens zwei)
}
web_plan-gloves = { $n ->
    [one] { $n } Paar saubere Handschuhe
   *[other] { $n } Paar saubere Handschuhe, zwei für jede Flasche, die geöffnet wird
}
web_plan-bags = { $n ->
    [one] { $n } sauberer Beutel
   *[other] { $n } saubere Beutel, zwei um jede Flasche
}
web_plan-acid = { $volume } Säure für Spurenanalytik, ein halbes Prozent des Volumens und noch einmal die Hälfte davon, in auslaufsicherer Flasche
web_plan-counter = der Partikelzähler mit geladenen Akkus und Nullfilter
web_plan-acid-caution = Säure verätzt: Schutzbrille, Handschuhe, Wasser bereithalten; im Freien, nie im geschlossenen Auto. Sulfidhaltiges Wasser gibt beim Ansäuern H₂S ab.
web_plan-well-house-caution = Geschlossene Brunnenhäuser, Schächte oder Behälter nicht betreten, keine offene Flamme. Nur geschulte Leute mit Gasmessgerät öffnen sie, nie allein. Örtliche Vorschriften und zugelassene Fachleute gehen vor.
web_plan-packing-pdf = Packliste als PDF, mit Kennungen und Kästchen zum Abhaken
web_plan-every-design = Was jeder anerkannte Entwurf enthält
web_plan-every-design-why = Eine Flasche wird nach der Tabelle der Prüfungen anerkannt; was die entscheidenden beantwortet, ist in jedem dieser Entwürfe.
web_plan-from-the-record = Aus der Aufzeichnung
web_plan-to-bear-in-mind = Zu bedenken
web_plan-make-trip = Diesen Probenahmetag anlegen
web_plan-make-with-bottles = Probenahmetag mit Flaschen anlegen
web_plan-one-act-of = Ein Eintrag der Aufzeichnung mit Ihrem Namen: der Tag und eine Kennung für jede Flasche von Entwurf { $n } an { $wells }.
web_plan-of-lot = Flaschen der Charge { $lot }:
web_plan-may-it-go-out = ist sie freigegeben?
web_plan-of-fraction = Fraktion: { $fraction }.
web_plan-blanks-in-turn = Feldblindproben werden reihum an jedem Brunnen geöffnet.
web_plan-for-samplers = Einen Probenahmetag anlegen dürfen Probenehmer und höhere Rollen.
web_plan-kind-detect = ein Wasser mit diesem Gehalt nachgewiesen wird
web_plan-kind-limit = sich zeigt, auf welcher Seite eines Grenzwerts ein Wasser liegt
web_plan-kind-lower = sich zeigt, dass ein Wasser weniger enthält als ein anderes
web_plan-kind-trend = eine Änderung über die Jahre gesehen wird
web_plan-kind-detection-limit = eine Nachweisgrenze erreicht wird
web_plan-field-analyte = Metall
web_plan-hint-analyte = Eines, das ein aufgezeichneter Messlauf gemessen hat.
web_plan-field-detect-level = Gehalt, ng/L
web_plan-hint-detect-level = Was Sie im Wasser erwarten.
web_plan-field-limit-level = Gehalt, ng/L
web_plan-hint-limit-level = Was Sie erwarten.
web_plan-field-limit-limit = Grenzwert, ng/L
web_plan-hint-limit-limit = Der Grenzwert, über den zu entscheiden ist.
web_plan-field-lower-a = Der niedrigere, ng/L
web_plan-field-lower-b = Der höhere, ng/L
web_plan-field-trend-level = Gehalt am Anfang, ng/L
web_plan-field-trend-percent-per-year = Änderung, % im Jahr
web_plan-hint-trend-percent-per-year = Unter null: Abnahme.
web_plan-field-trend-years = Jahre
web_plan-field-trend-visits-per-year = Besuche im Jahr
web_plan-hint-trend-visits-per-year = 1, wenn leer.
web_plan-field-trend-natural-share = Streuung des Wassers selbst
web_plan-hint-trend-natural-share = Als Anteil des Gehalts, von Besuch zu Besuch; 0, wenn leer.
web_plan-field-detection-limit-target = Nachweisgrenze, ng/L
web_plan-field-detection-limit-level = Gehalt, ng/L
web_plan-hint-detection-limit-level = Für die relative Messunsicherheit; das Ziel, wenn leer.
web_plan-field-prices-bottle = Eine Flasche
web_plan-hint-prices-bottle = Gereinigt, gefüllt, gemessen; Probe oder Blindprobe.
web_plan-field-prices-spike = Eine aufgestockte Flasche
web_plan-field-prices-minute-saved = Eine gesparte Minute
web_plan-hint-prices-minute-saved = Flaschen kürzer offen zu halten kostet Arbeit.
web_plan-field-prices-litre = Ein getragener Liter
web_plan-field-prices-trip = Der Tag selbst
web_plan-field-prices-vial = Ein Messgefäß des Messlaufs
web_plan-hint-prices-vial = Referenzmaterial, Driftkontrolle, zweite Quelle.
web_plan-field-choices-samples = Probenflaschen je Brunnen
web_plan-field-choices-field-blanks = Feldblindproben
web_plan-hint-choices-field-blanks = Mindestens zwei: eine zeigt keine Streuung.
web_plan-field-choices-trip-blanks = Transportblindproben
web_plan-field-choices-bottle-blanks = Flaschenblindproben
web_plan-hint-choices-bottle-blanks = Sie bleiben zu Hause.
web_plan-field-choices-spikes = Aufgestockte Flaschen
web_plan-hint-choices-spikes = An allen Brunnen zusammen.
web_plan-field-choices-volume-ml = Füllvolumen, mL
web_plan-field-choices-minutes = Minuten offen
web_plan-field-past-blanks-pg = Blindproben bisher, pg je Flasche
web_plan-hint-past-blanks-pg = Mindestens zwei, mit Kommas.
web_plan-field-between-bottles-pg = Streuung zwischen Blindproben, pg
web_plan-field-past-dof = Freiheitsgrade dazu
web_plan-field-laboratory-pg = Streuung des Labors, pg je Flasche
web_plan-field-relative-sd = Streuung einer Probenflasche
web_plan-hint-relative-sd = Als Anteil ihres Gehalts.
web_plan-field-spike-sd = Streuung einer Wiederfindung
web_plan-hint-spike-sd = Als Anteil.
web_plan-field-recovery-u = Messunsicherheit der Wiederfindung ohne Aufstockung
web_plan-hint-recovery-u = Als Anteil, eine Standardunsicherheit.
web_plan-field-name = Name des Probenahmetags
web_plan-hint-name = Er bleibt; die Kennungen entstehen daraus.
web_plan-field-starts = Tag
web_plan-hint-starts = Wie 13. Juli 2027.
web_plan-check-run-blank-count = genug Blindproben
web_plan-check-number-blanks = Blindwerte bekannt
web_plan-check-bottle-blank-against-forecast = Blindwert wie erwartet
web_plan-check-number-duplicates = Flaschen stimmen überein
web_plan-check-number-duplicates-spread = Streuung der Flaschen
web_plan-check-number-replicates = Wiederholungen gleich
web_plan-check-run-duplicate = Parallelproben des Messlaufs gleich
web_plan-check-number-recovery = Wiederfindung
web_plan-check-run-field-spike = Aufstockung im Feld
web_plan-check-run-lab-spike = Aufstockung im Labor
web_plan-check-bottle-lot-blank = Chargenblindwerte niedrig
web_plan-check-run-reference-material = Kontrollprobe richtig
web_plan-check-run-reference-warning = Kontrollprobe in der Warngrenze
web_plan-check-run-drift = Drift
web_plan-check-run-drift-open = Drift an beiden Enden bekannt
web_plan-check-run-fast-drift = schnelle Drift erkannt
web_plan-check-run-second-source = zweite Quelle
web_plan-check-cool-box-seal = Siegel unversehrt
web_plan-check-number-above-blanks = über den Blindwerten
web_plan-check-number-stability = im zweiten Messlauf gleich
web_plan-check-number-uncertainty = Messunsicherheit angegeben
web_plan-check-number-water-share = Anteil des Wassers
web_plan-check-number-excluded = ausgeschlossen
web_plan-check-run-excluded = Messgefäß ausgeschlossen
