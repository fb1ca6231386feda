supplement-title = Ergänzung für Gutachter. { $title }
supplement-what-stands-here = Was hier steht
supplement-opening = Für die Gutachter einer Veröffentlichung: { $results ->
    [one] { $results } Ergebnis mit seiner Blindprobe, seinen Grenzen und seinem Urteil
   *[other] { $results } Ergebnisse mit ihren Blindproben, Grenzen und Urteilen
}, die Validierung des Verfahrens aus seinen Messläufen am Gerät ({ $runs }) und die Belege dahinter. Der Ordner data neben dieser Datei ist die ganze Aufzeichnung als offenes Datenpaket: Tabellen, Rohdateien, Herkunft und Prüfsummen; er lässt sich in ein eigenes Programm mit derselben Kette von Ereignissen zurücklesen.
supplement-standard = ± ist die erweiterte Messunsicherheit, k = 2.
supplement-analyte = { $element } { $isotopes } { $resolution ->
    [low] niedrig
    [medium] mittel
    [high] hoch
   *[other] { $resolution }
}
supplement-mean = { $mean }, s { $sd } ({ $n })
supplement-mean-of-one = { $value } (1)
supplement-largest = { $largest } ({ $n })
supplement-validation = Validierung des Verfahrens, Messlauf { $run }
supplement-validation-text = Gerade und Grenzen gelten für eine unverdünnte Probe in einer Flasche so groß wie die der Blindproben. L_C, L_D und L_Q stehen auf der Netto-Skala, aus den Feldblindproben. P: Wahrscheinlichkeit, dass der Zufall so große Residuen bringt; erweitert: Faktor auf die eigene Unsicherheit der Punkte, wo die Gerade nicht passte.
supplement-line = Gerade und Grenzen jedes Stoffs
supplement-points = Punkte
supplement-range = Bereich, { $unit }
supplement-response = Impulse/s je { $unit }
supplement-widened = erweitert
supplement-dash = Ein Strich: Die Belege geben es nicht her.
supplement-from-zero = 0 bis { $highest }
supplement-performance = Wiederfindung, Präzision, Richtigkeit, Überlagerungen, Unsicherheit
supplement-recovery-mean = Wiederfindung, %: Mittel, s (n)
supplement-level-of-water = Gehalt des Wassers
supplement-difference-of-duplicates = größter Unterschied von Parallelproben, % (Paare)
supplement-reference-of-assigned = Referenzmaterial, % des zugewiesenen Werts
supplement-overlaps-taken-off = abgezogene Überlagerungen, größter Anteil
supplement-mean-u = mittleres u der Wässer
supplement-performance-note = Wiederfindung von Aufstockungen im Wasser des Programms, in der Höhe seines Gehalts. Jede Aufstockung, jedes Paar und jedes Gefäß eines Referenzmaterials steht unten.
supplement-no-pair = kein Paar
supplement-no-overlap = keine im Rezept
supplement-overlaps = { $species }: { $share }
supplement-blanks = Blindproben, Messlauf { $run }
supplement-blank-kind = { $kind ->
    [calibration] Kalibrierung
    [procedural] Verfahren
    [bottle] Flasche
    [trip] Transport
    [field] Feld
    [equipment] Geräte
   *[other] { $kind }
}, { $unit }
supplement-blanks-by-kind = Blindproben nach Art: Mittel, Standardabweichung (Anzahl), brutto
supplement-blanks-note = Brutto: über dem Nullpunkt der Kalibrierung, keine andere Blindprobe abgezogen. Eine Blindprobe, die eine Person aus den Belegen nahm, ist nicht gezählt; das Datenpaket hat sie mit dem Grund.
supplement-recoveries = Wiederfindungen, Parallelproben, Referenzmaterialien, Messlauf { $run }
supplement-spikes = Aufstockungen, { $unit }
supplement-duplicates = Parallelproben, { $unit }
supplement-references = Referenzmaterialien, { $unit }
supplement-vial = Gefäß
supplement-spiked-in = zugesetzt im
supplement-field = Feld
supplement-laboratory = Labor
supplement-level = Gehalt
supplement-added = zugesetzt
supplement-recovery = Wiederfindung, %
supplement-duplicate = Parallelprobe
supplement-difference = Unterschied
supplement-of-the-mean = % des Mittels
supplement-allowed = von den Unsicherheiten erlaubt
supplement-assigned = zugewiesen
supplement-budgets = Unsicherheitsbilanzen, Messlauf { $run }
supplement-budget = Unsicherheitsbilanz jedes Ergebnisses: Anteil an der Varianz
supplement-net-value = Nettowert
supplement-comes-from = woher seine Unsicherheit kommt
supplement-budget-note = Die Herleitung jedes Ergebnisses bis zu den Zählimpulsen steht in data/record/derivation.csv.
supplement-part = { $input } { $share }
supplement-others = { $parts ->
    [one] { $parts } anderer
   *[other] { $parts } andere
} { $share }
supplement-reported = Berichtete Ergebnisse
supplement-reported-text = Ergebnisse, die als Konzentrationen kamen: Gerade, Unsicherheitsbilanz und rohe Zählwerte liegen beim Labor. Die Blindproben sind die desselben Labors und Verfahrens.
supplement-laboratory-not-stated = Labor nicht angegeben
supplement-method-not-stated = Verfahren nicht angegeben
supplement-reported-by = Berichtet, { $laboratory }
supplement-results = Ergebnisse
supplement-below = darunter
supplement-reporting-limit = Berichtsgrenze
supplement-mean-u-of-reported = mittleres u
supplement-blanks-with-value = Blindproben mit einem Wert
supplement-highest-blank = höchste Blindprobe
supplement-method = Verfahren
supplement-not-stated = nicht angegeben
supplement-from-to = { $low } bis { $high }
supplement-of = { $found } von { $blanks }
supplement-all = Alle Ergebnisse
supplement-too-many = Die Aufzeichnung enthält { $results ->
    [one] { $results } Ergebnis, zu viel zum Drucken: Es steht
   *[other] { $results } Ergebnisse, zu viele zum Drucken: Sie stehen
} in data/results.csv und data/parquet/results.parquet mit den Spalten dieser Tabelle.
supplement-all-text = Neueste Fassung jedes Ergebnisses, Belege eingeschlossen. Wo nicht nachgewiesen, steht die obere Grenze; Nettowerte stehen in data/results.csv.
supplement-results-of = { $analyte }: Ergebnisse mit Blindprobe, Grenzen und Urteil
supplement-kind = Art
supplement-state = Status
supplement-evidence = Beleg
supplement-results-note = u: Standardunsicherheit, k = 1. <: nicht nachgewiesen, die Zahl ist die obere Grenze. L_C, L_D: Netto-Skala.
supplement-other-results = Alle übrigen Ergebnisse: von einem Labor mitgeteilt, oder wenige eines Stoffs
supplement-others-note = u: Standardunsicherheit, k = 1. <: nicht nachgewiesen, die Zahl ist die obere Grenze. Die Grenze ist die des Berichts, sonst die Nachweisgrenze.
supplement-package = Das Datenpaket
supplement-sums = Dateien und ihre Prüfsummen
supplement-file = Datei
supplement-sums-note = data/SHA256SUMS und data/BLAKE3SUMS nennen jede Datei des Pakets; die Prüfsumme der Liste selbst steht hier.
