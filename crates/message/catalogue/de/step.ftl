### Wie Werte zustande kamen: Verfahren, Knoten, Schritte und Teile der Unsicherheit einer Herleitung.

step-input = Eingabe
step-field-record = Feldaufzeichnung
step-analysis = Analyse
step-analysis-or-balance = Analyse oder Ladungsbilanz
step-share = Anteil des Wassers = 1 − Blindprobe/Brutto; Intervall als Menge nach Fieller, auf 0 bis 1 gelesen, vom besten dort erlaubten Anteil aus
step-metal-in-bottle = Metall in der Flasche
step-metal-by-blanks = Metall, das nach den Blindproben nicht aus dem Wasser kommt
step-water-share = Anteil des Wassers am Metall
step-water-share-formula = 1 − Blindprobe/Brutto
step-flow-method = Schüttung aus gestoppten Füllungen, Mittel von Volumen durch Zeit
step-fill-volume = Volumen der Füllung { $fill }
step-fill-time = Zeit der Füllung { $fill }
step-fill-flow = Schüttung der Füllung { $fill }
step-fill-flow-formula = Volumen/Zeit
step-fills-mean = Mittel der Füllungen
step-part-timing = Stoppen und Ablesen der Marke, Streuung der Füllungen
step-part-container = Volumen des Behälters
step-head-method = Druckhöhe aus dem Druck eines geschlossenen Brunnens in Ruhe
step-gauge-pressure = Druck am Manometer
step-gauge-height-above-ground = Höhe des Manometers über Gelände
step-density = Dichte des Wassers
step-at-temperature = bei { $temperature }
step-head = Druckhöhe über Gelände
step-head-formula = Höhe + Druck/(Dichte · 9,80665 m/s²)
step-part-gauge-height = Höhe des Manometers
step-saturation-method = Sättigungsindex aus einer Analyse
step-log-activity = log10 der Aktivität von { $component }
step-mole-balances = Stoffbilanzen, gemeinsam gelöst
step-constant-source = { $source } ({ $seen ->
    [seen] in der Quelle gesehen
    [memory] aus dem Gedächtnis
    [computed] berechnet
    [estimate] geschätzt
   *[other] { $seen }
})
step-temperature-by-fit = veröffentlichte Anpassung: { $source } ({ $seen ->
    [seen] in der Quelle gesehen
    [memory] aus dem Gedächtnis
    [computed] berechnet
    [estimate] geschätzt
   *[other] { $seen }
})
step-temperature-by-enthalpy = ΔrH { $enthalpy } (u { $u }), ΔrCp nicht bekannt: { $source } ({ $seen ->
    [seen] in der Quelle gesehen
    [memory] aus dem Gedächtnis
    [computed] berechnet
    [estimate] geschätzt
   *[other] { $seen }
})
step-temperature-by-heat-capacity = ΔrH { $enthalpy } (u { $u }), ΔrCp { $heat-capacity }: { $source } ({ $seen ->
    [seen] in der Quelle gesehen
    [memory] aus dem Gedächtnis
    [computed] berechnet
    [estimate] geschätzt
   *[other] { $seen }
})
step-temperature-unknown = kein Temperaturglied: der Wert bei 25 °C, mit u einer Enthalpie von 15 kJ/mol nach beiden Seiten
step-saturation-index = Sättigungsindex von { $solid }
step-log-k = log K von { $of }
step-as-reported-method = Konzentration, wie das Labor sie berichtete; wie gemessen wurde, hat das Labor zu sagen
step-as-reported-without-limit = Konzentration, wie das Labor sie berichtete; wie gemessen wurde, hat das Labor zu sagen; nicht nachgewiesen, und der Bericht sagt nicht, unter welcher Grenze ({ $place })
step-as-reported = { $analyte } wie berichtet
step-file-row = { $file } Zeile { $row }
step-file = Datei { $file }
step-no-file = Datei nicht verzeichnet
step-as-reported-untold = Konzentration, wie das Labor sie berichtete; wie gemessen wurde, hat das Labor zu sagen; ihr Wert lässt sich nicht sagen ({ $place }): { $why }
