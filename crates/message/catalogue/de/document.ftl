document-share-alone = { $share } ({ $low } bis { $high })
document-result = Ergebnis
document-value = Wert
document-verdict = Urteil
document-because = Begründung
document-key-results = Die wichtigsten Ergebnisse und ihre Urteile.
document-meaning = Bedeutung
document-expanded = ± ist die erweiterte Messunsicherheit, k = { $k }.
document-expanded-between = ± ist die erweiterte Messunsicherheit, k = { $low } bis { $high }.
document-expanded-each = ± ist die erweiterte Messunsicherheit, der Erweiterungsfaktor k steht daneben.
document-not-detected = < steht vor einer oberen Schranke, nicht vor einem Wert: nichts wurde nachgewiesen, oder das Metall eines Abschnitts, den keine Blindprobe erfasste, ist darin.
document-not-stated = † Die Quelle gibt keine Unsicherheit an.
document-water-share = Aus dem Wasser, wie es den Brunnen verlässt: der Teil des gemessenen Metalls, der mit dem Wasser durch ein Rohr kam, das es nicht länger berührte, als das Programm erlaubt, mit seinem 95-%-Intervall für diese Flasche. Der Eigengehalt des Wassers: dasselbe ohne den Teil des Rohrs.
document-left-with-pipe = Nicht aus Luft, Flasche oder Labor: der Teil des gemessenen Metalls, den die Blindproben übrig lassen, mit seinem 95-%-Intervall. Keine Blindprobe sieht das Rohr, also bleibt offen, was davon das des Wassers ist.
document-left-with-air = Luft nicht auseinanderzuhalten: Die Flasche stand offen, wo es keine zwei Blindproben taten; was diese Luft brachte, ist in dem Teil, der übrig bleibt.
document-programme = Programm
document-head = Prüfsumme des letzten Eintrags
document-events = Ereignisse in der Aufzeichnung
document-derived-by = hergeleitet mit
document-last-date = letztes Datum in den Daten
document-file = Datei { $file }
document-foot = { $programme } · Aufzeichnung { $head }…

# Beside a data package that is attached to a document: what it is.
# $head (name): head hash of the record
document-package-inside = Das offene Datenpaket dieser Aufzeichnung, vollständig: Ergebnisse, Aufzeichnung, Rohdateien, Programme, die jede Zahl noch einmal ausrechnen. Kopf der Aufzeichnung: { $head }
