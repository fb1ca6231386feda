detection-page = Nachweis: welche Grenze wofür gebraucht wurde, { $element }
detection-before = Jedes „nachgewiesen“ in diesem Bericht beruht auf der Erkennungsgrenze der Feldblindproben (erste Zeile). Ein Versprechen, „ein Gehalt von … wäre gesehen worden“, beruht auf der Nachweisgrenze derselben Zeile. Die anderen Zeilen sind, was andere veröffentlichte Wege aus denselben Gefäßen ergeben; sie entscheiden hier nichts. Konzentrationen von { $element } in einer Flasche so groß wie die der Blindproben.
detection-limits = Nachweisgrenzen von { $element } auf mehreren Wegen, ng/L
detection-way = Weg
detection-scale = Skala
detection-decides-above = entscheidet über
detection-promises-from = verspricht ab
detection-quoted-from = bestimmbar ab
detection-used-for = hier gebraucht für
detection-table-explained = Netto: Blindprobe abgezogen. Brutto: wie gemessen. Ein Strich: Der Weg ergibt keine solche Grenze. Die Quellen stehen unter den Verfahren.
detection-student = Feldblindproben, Student-t (Currie 1995, ISO 11843-1)
detection-decides = jede Entscheidung und jedes Versprechen dieses Berichts
detection-too-few-field-blanks = nicht anzugeben: weniger als zwei Feldblindproben
detection-huber = Feldblindproben, robuste Skala nach Huber
detection-looks-normal = Vergleich; die Blindproben sehen normalverteilt aus
detection-looks-not-normal = Vergleich; die Blindproben sehen nicht normalverteilt aus
detection-normality-unknown = Vergleich; zu wenige Blindproben, um Normalverteilung zu prüfen
detection-percentile = 95-%-Grenze des 90. Perzentils der Blindproben, Ordnungsstatistik
detection-free = Vergleich, ohne Annahme einer Verteilung
detection-percentile-too-few = mit so wenigen nicht anzugeben: Es braucht { $needed ->
    [one] { $needed } Blindprobe
   *[other] { $needed } Blindproben
}, vorhanden sind { $blanks }
detection-mdl-blanks = Verfahrensnachweisgrenze aus Blindproben (US 40 CFR 136 App. B)
detection-no-number = nicht angegeben: Keine Blindprobe ist eine Zahl
detection-comparison = Vergleich
detection-mdl-spikes = Verfahrensnachweisgrenze aus Aufstockungen (US 40 CFR 136 App. B)
detection-spikes-above = Vergleich; die Aufstockungen liegen über dem eigenen Metall des Wassers
detection-line = Kalibriergerade (ISO 11843-2; bestimmbar ab: DIN 32645)
detection-instrument-alone = Vergleich; des Geräts allein, ohne Flasche
detection-cannot = nicht anzugeben: { $why }
detection-too-few = { $what ->
    [blanks] Blindproben
    [spiked] Aufstockungen
    [points-with-x-and-y] Punkte mit x und y
   *[other] { $what }
}: { $found } gefunden, mindestens { $needed ->
    [one] { $needed } ist nötig
   *[other] { $needed } sind nötig
}
detection-not-finite = { $what ->
    [blanks] Blindproben
    [spiked] Aufstockungen
   *[other] { $what }
}[{ $place }] ist keine endliche Zahl, eine solche ist nötig
detection-all-equal = { $what ->
    [blanks] Blindproben
    [spiked] Aufstockungen
   *[other] Werte von { $what }
} ({ $n }) sind alle { $value }: Ihre Streuung ist nicht bekannt, sie ist nicht null. Mit mehr Stellen und mit negativen Werten angeben, oder als Zählimpulse mit Zählzeiten
detection-out-of-range = { $what } ist { $value }, außerhalb seines Bereichs
detection-one-level = { $n ->
    [one] der eine Punkt steht
   *[other] alle { $n } Punkte stehen
} bei x = { $x }: Von dieser Geraden lässt sich keine Grenze ablesen
detection-not-rising = die Steigung ist { $slope }, nicht über null: Von dieser Geraden lässt sich keine Grenze ablesen
detection-no-scatter = alle Punkte liegen genau auf der Geraden, also ist das Rauschen nicht bekannt: Von dieser Geraden lässt sich keine Grenze ablesen
detection-not-settled = die Bestimmungsgrenze nach DIN 32645 kam nach { $iterations ->
    [one] { $iterations } Schritt
   *[other] { $iterations } Schritten
} nicht zur Ruhe: Die Unsicherheit wächst so schnell wie der Gehalt
