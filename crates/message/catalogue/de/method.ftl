method-counts = Von Zählwerten zu einer Konzentration
method-counts-text = Totzeit, Untergrund, im Messlauf gemessene Überlagerungen, interner Standard, Drift zwischen den Kontrollen davor und danach, gewichtete Gerade mit der Kovarianz von Steigung und Achsenabschnitt, Verdünnung, eine Blindprobe. Jeder Schritt ist ein Knoten der Herleitung, die die Aufzeichnung bewahrt.
method-counts-source = JCGM 100:2008 (Fortpflanzung mit Korrelationen, Welch–Satterthwaite)
method-detected = Nachgewiesen oder nicht
method-detected-text = Erkennungsgrenze und Nachweisgrenze aus den Feldblindproben auf der Netto-Skala, mit Student-t und nichtzentralem t; obere Grenze max(netto, 0) + t·u, nie unter der Erkennungsgrenze. Genau eine Blindprobe wird abgezogen: die Feldblindprobe, die die inneren enthält.
method-share = Anteil des Wassers
method-share-text = 1 − Blindprobe/Brutto, sein Intervall nach Fieller mit der Kovarianz, die die gemeinsame Kalibrierung bringt, gehalten in 0…1.
method-stages = Stationen des Wegs
method-stages-text = Unterschiede ineinander liegender Blindproben desselben Messlaufs: Flasche weniger Verfahren, Transport weniger Flasche, Feld weniger Transport; Intervalle nach Welch.
method-attribution = Wessen Metall es ist
method-attribution-text = Alle Flaschen einer Probenahme gemeinsam angepasst: Volumen mal Wasser plus Einflüsse mal Quellen, keine negativ, gewichtet, Ausreißer nach einem zweiteiligen Fehlergesetz; Intervalle nach Student-t der Anpassung ohne die Schranke, von null an gelesen. Steht neben dem einfachen Ergebnis, nie an seiner Stelle. Vorhersagen: Produkte dessen, was von jeder Quelle bekannt ist, nach Monte Carlo, sonst Blindproben früherer Messläufe.
method-lots = Chargen von Flaschen
method-lots-text = Eine einseitige Toleranzgrenze der Flaschenblindproben, auf Logarithmen, wo diese näher an der Normalverteilung liegen, gegen das Ziel jedes Metalls.
method-lots-source = Owen 1958, Sandia SCR-13 (aus dem Gedächtnis)
method-air = Luft
method-air-text = Teilchenzählungen mit ihrer exakten Poisson-Schranke gegen die Klassengrenzen: ein Messwert an einer Stelle, keine Klassifizierung des Schranks.
method-air-source = ISO 14644-1:2015, Tabelle 1
method-reported = Berichtete Konzentrationen
method-reported-text = Werte, Grenzen und Vermerke stehen, wie das Labor sie schrieb; ein zensierter Wert ist nie eine Null und nie eine Hälfte. Blindproben desselben Stoffs begrenzen durch Ordnungsstatistik, was von anderswo kommt; Sätze von Wiederholungen geben die Streuung eines einzelnen Werts.
method-reported-source = Hahn & Meeker 1991, Statistical Intervals (Grenzen aus Ordnungsstatistik)
method-verdict = Urteil
method-verdict-text = Verworfen: Eine entscheidende Prüfung ist nicht erfüllt. Vorläufig: Entscheidende Belege fehlen, oder eine Warnung ist offen. Anerkannt: Alle entscheidenden Prüfungen sind erfüllt. Welche Prüfungen entscheiden, steht in der eigenen Tabelle des Programms.

method-untaken = { $checks ->
    [one] { $checks } Prüfung dieser Version steht nicht in der Tabelle dieses Programms: Was sie findet, ist ein Hinweis.
   *[other] { $checks } Prüfungen dieser Version stehen nicht in der Tabelle dieses Programms: Was sie finden, sind Hinweise.
}
method-other-limits = Andere Nachweisgrenzen
method-other-limits-text = Neben der entscheidenden gezeigt: robuste Skala nach Huber, Ordnungsstatistik der Blindproben, die US-Verfahrensnachweisgrenzen aus Blindproben und Aufstockungen, die Kalibriergerade. Wie oft schiefe Blindproben sauberes Wasser nachgewiesen aussehen lassen, wurde simuliert; die Tabelle steht auf den Validierungsseiten des Projekts.
method-lead = Isotopenverhältnisse des Bleis
method-lead-text = Verhältnisse von Summen über die Wiederholungen, Totzeit und Kalibrierblindproben abgezogen; Massendiskriminierung nach einer Referenz des Messlaufs mit dem Exponentialgesetz, wo das Rezept eine nennt. Mischung ist eine Gerade über einem gemeinsamen Isotop.
method-dust = Staub in den Blindproben
method-dust-text = Was Feldblindproben über Transportblindproben hinaus enthalten, je Element, geteilt durch dasselbe in der oberen Kruste, bezogen auf ein Bezugselement; zwei oder mehr Krustentabellen nebeneinander.
method-dust-source = Rudnick & Gao 2003; Taylor & McLennan 1985; McLennan 2001; Hu & Gao 2008 (Krustentabellen)
method-quality = Qualität über die Messläufe
method-quality-text = Zeta-Werte und En-Werte von Referenzmaterialien, Wiederfindungen in ihren Fenstern, Parallelproben gegen ihr vorhergesagtes u; Einzelwert-, CUSUM- und EWMA-Karten, sobald acht Messläufe verzeichnet sind.
method-well = Der Brunnen
method-well-text = Schüttung aus gestoppten Füllungen; Kontaktzeit ist Volumen durch Schüttung, Abschnitt für Abschnitt; Druckhöhe aus dem Druck des geschlossenen Brunnens. Ein Schüttungsversuch bei gleichbleibender Druckhöhe wird mit der vollen Brunnenfunktion angepasst, nicht mit ihrer Geraden für späte Zeiten. Fließzeit und Einzugsbreite nach Monte Carlo über das Gemessene und das, was ein Lehrbuch gibt, auseinandergehalten.
method-well-source = Puls & Barcelona 1996 (konstante Messwerte)
method-overflow = Überlauf und Bach
method-overflow-text = Massenbilanz aus Abflüssen und Gehalten bei vollständiger Mischung; u nach den partiellen Ableitungen. Was ausfällt oder reagiert, wenn die Wässer sich treffen, ist gekennzeichnet, nicht berechnet.
