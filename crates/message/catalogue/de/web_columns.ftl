web_columns-title = Die Spalten wählen
web_columns-what = Was die Datei von sich selbst sagt, steht hier schon, jede Vermutung mit ihrem Beleg. Berichtigen Sie, was falsch ist, beantworten Sie, was gefragt wird; dann wird sie sofort gelesen, und es gilt für die nächste Datei dieses Labors. Die Datei:
web_columns-asked = Die Datei sagt nicht:
web_columns-not-saved = Noch nicht behalten.
web_columns-name = Behalten als
web_columns-name-what = Der Name des Labors: Seine nächste Datei wird von selbst gelesen. Buchstaben, Ziffern, Bindestriche, Leerzeichen.
web_columns-name-wrong = Der Name: gefunden andere Zeichen, erwartet Buchstaben, Ziffern, Bindestriche und Leerzeichen.
web_columns-needed = nötig
web_columns-form = Die Form der Datei
web_columns-as-told = wie die Datei es sagt
web_columns-delimiter = Zeichen zwischen den Zellen
web_columns-tab = Tabulator
web_columns-decimal = Dezimalzeichen
web_columns-comma = Komma: 1,2
web_columns-point = Punkt: 1.2
web_columns-thousands = Zeichen zwischen Dreiergruppen
web_columns-blank = Leerzeichen
web_columns-encoding = Zeichensatz
web_columns-dates = Daten
web_columns-year-first = Jahr zuerst: 2026/07/15
web_columns-day-first = Tag zuerst: 15.07.2026, 15/07/2026
web_columns-month-first = Monat zuerst: 07/15/2026
web_columns-sheet = Tabellenblatt
web_columns-header-row = Zeile der Überschriften
web_columns-units-row = Zeile der Einheiten
web_columns-methods-row = Zeile der Verfahren
web_columns-transposed = Parameter untereinander, Proben nebeneinander
web_columns-blocks = Mehrere Blöcke mit je eigenen Überschriften
web_columns-hidden = Ausgeblendete Zeilen und Spalten
web_columns-hidden-take = gehören zur Tabelle
web_columns-hidden-leave = bleiben weg
web_columns-yes = ja
web_columns-no = nein
web_columns-proof-comma = { $n ->
    [one] { $n } Zelle
   *[other] { $n } Zellen
} wie { $example }; { $points ->
    [0] keine mit Punkt
   *[other] { $points } mit Punkt
}
web_columns-proof-point = { $n ->
    [one] { $n } Zelle
   *[other] { $n } Zellen
} wie { $example }; { $commas ->
    [0] keine mit Komma
   *[other] { $commas } mit Komma
}
web_columns-proof-cells = { $rows } der ersten Zeilen haben je { $cells ->
    [one] { $cells } Zelle
   *[other] { $cells } Zellen
}
web_columns-proof-headings = { $n } ihrer { $of ->
    [one] { $of } Zelle sind
   *[other] { $of } Zellen sind
} bekannte Überschriften
web_columns-proof-date = wie in { $example }
web_columns-layout = Eine Zeile der Datei ist
web_columns-layout-long = ein Ergebnis
web_columns-layout-wide = eine Flasche, die Stoffe nebeneinander
web_columns-column = Spalte
web_columns-first-cells = Erste Zellen
web_columns-read-as = Gelesen als
web_columns-ignored = bleibt weg
web_columns-analyte-across = Werte für { $analyte }
web_columns-no-rows = Die Datei zeigt keine Zeilen.
web_columns-bottle = Die Flasche
web_columns-result = Das Ergebnis, wo eine Zeile ein Ergebnis ist
web_columns-every = Für jedes Ergebnis
web_columns-not-there = – nicht in der Datei –
web_columns-or-every = oder für jede Zeile
web_columns-f-bottle-label = Bezeichnung der Flasche oder Probe
web_columns-f-bottle-kind = Art der Flasche
web_columns-f-bottle-filled-at = wann sie gefüllt wurde
web_columns-f-well-name = Brunnen
web_columns-f-result-analyte = Stoff
web_columns-f-result-value = Wert
web_columns-f-result-unit = Einheit
web_columns-f-result-remark = Zeichen oder Vermerk beim Wert
web_columns-f-result-u = Messunsicherheit
web_columns-f-result-detection-limit = Nachweisgrenze (NWG)
web_columns-f-result-quantification-limit = Bestimmungsgrenze (BG)
web_columns-f-result-reporting-limit = Berichtsgrenze
web_columns-f-result-critical-value = Erkennungsgrenze
web_columns-f-result-isotopes = Isotope
web_columns-f-result-resolution = Auflösung
web_columns-f-result-fraction = Fraktion (unfiltered = unfiltriert, 0.45 um, filtered = filtriert)
web_columns-f-result-laboratory = Labor
web_columns-f-result-method = Verfahren
web_columns-u = Was ist ±?
web_columns-u-what = Gefragt, weil eine Zahl viererlei bedeuten kann. Hinter jeder Antwort steht, wie der erste Wert gedruckt würde: ± ist auf jeder Seite U, 95 %.
web_columns-u-heading = wie die Überschrift es sagt; sagt sie nichts, wird gefragt
web_columns-u-standard = Standardunsicherheit u, in der Einheit des Wertes
web_columns-u-expanded = erweitert, U mit k = 2, in der Einheit des Wertes
web_columns-u-level = halber Vertrauensbereich von 95 %, in der Einheit des Wertes
web_columns-u-limits = nur Grenzen, die nie überschritten werden (halbe Breite), in der Einheit des Wertes
web_columns-u-standard-percent = Standardunsicherheit u, in Prozent
web_columns-u-expanded-percent = erweitert, U mit k = 2, in Prozent
web_columns-u-k = k von U, wo es nicht 2 ist
web_columns-would-print = { $from } → ({ $to })
web_columns-pm = Was in einer Zelle hinter ± steht, ist
web_columns-pm-none = kommt nicht vor; kommt es vor, wird gefragt
web_columns-short-standard = Standardunsicherheit u
web_columns-short-expanded = U mit k = 2
web_columns-short-level = halber Vertrauensbereich von 95 %
web_columns-names = Name in der Datei → unser Name
web_columns-theirs = Name in der Datei
web_columns-ours = Unser Name
web_columns-mark = Zeichen
web_columns-sure = sicher
web_columns-likely = wahrscheinlich: bitte prüfen
web_columns-new = neu: braucht Ihr Einverständnis
web_columns-names-what = Ein neuer Name bleibt, wie er geschrieben ist, und wird vor der Übernahme noch einmal gefragt.
web_columns-two-names = { $names } werden alle als { $ours } gelesen: Ist das ein Stoff?
web_columns-words = Was neben Zahlen in der Zelle eines Wertes steht
web_columns-empty = eine leere Zelle
web_columns-refused = wird abgelehnt
web_columns-another = ein anderes Wort
web_columns-means = bedeutet
web_columns-m-below = die Zahl daneben ist eine Grenze, unter der der Wert liegt
web_columns-m-above = die Zahl daneben ist eine Grenze, über der der Wert liegt
web_columns-m-estimated = das Labor nennt den Wert geschätzt
web_columns-m-not-detected = nicht nachgewiesen; eine Zahl daneben ist die Grenze
web_columns-m-below-quantification-limit = unter der Bestimmungsgrenze der eigenen Spalte
web_columns-m-below-detection-limit = unter der Nachweisgrenze der eigenen Spalte
web_columns-m-missing = nichts wurde berichtet
web_columns-last-look = Letzter Blick: die ersten Zeilen, wie sie behalten würden
web_columns-last-look-what = „Neu lesen“ zeigt sie neu und schreibt nichts.
web_columns-no-look = Nichts lässt sich zeigen, ehe jede Frage beantwortet ist.
web_columns-read-again = Neu lesen
web_columns-keep = Behalten und ansehen, was übernommen würde
web_columns-ask-bottle = welche Spalte nennt die Flasche?
web_columns-ask-fraction = welche Fraktion? Nichts in der Datei sagt es
web_columns-ask-analyte = welche Spalte enthält den Stoff?
web_columns-ask-value = welche Spalte enthält den Wert?
web_columns-ask-unit = welche Einheit? Nichts in der Datei sagt es
web_columns-ask-across = welche Spalten enthalten Stoffe?
web_columns-ask-unit-of = welche Einheit haben { $headings }?
web_columns-ask-unit-of-isotopes = welche Einheit haben die Isotope?
web_columns-ask-coverage = sind die Unsicherheiten unter { $heading } Standardunsicherheiten oder erweitert?
web_columns-ask-u-unit = stehen die Unsicherheiten unter { $heading } in Prozent des Wertes oder in seiner Einheit?
web_columns-ask-plus-minus = was steht hinter ±?
web_columns-ask-decimal = welches ist das Dezimalzeichen?
web_columns-ask-dates = Tag oder Monat zuerst?
web_columns-ask-sheet = welches Tabellenblatt? Es gibt { $sheets }
web_columns-ask-headings = keine Zeile mit Überschriften ist bekannt
web_columns-ask-word = was bedeutet { $word } in Zeile { $row }?
web_columns-kept = { $bottle }: { $what } { $value }, { $more }
web_columns-kept-dated = { $bottle }, { $day }: { $what } { $value }, { $more }
web_columns-kept-no-number = { $bottle }: { $what } { $said }, { $more }
web_columns-kept-estimated = { $of }; vom Labor geschätzt
web_columns-kept-limits = { $of }; { $limits }
web_columns-lim-critical = Erkennungsgrenze { $x }
web_columns-lim-detection = Nachweisgrenze { $x }
web_columns-lim-quantification = Bestimmungsgrenze { $x }
web_columns-lim-reporting = Berichtsgrenze { $x }
web_columns-said-nothing = kein Ergebnis
web_columns-said-not-found = nicht nachgewiesen, höchstens { $x }
web_columns-said-not-found-unknown = nicht nachgewiesen, Grenze nicht angegeben
web_columns-fraction-unfiltered = unfiltriert
web_columns-fraction-filtered = filtriert
web_columns-fraction-pore = filtriert, { $pore } µm
web_columns-fraction-other = Fraktion „{ $fraction }“
web_columns-fraction-none = Fraktion nicht angegeben
