aquifer-out-of-range = { $what }: gefunden { $found }, erwartet { $expected }
aquifer-unlike = { $what }: gefunden { $found }, erwartet { $expected }
aquifer-too-few = { $what }: { $have } gegeben, mindestens { $need } nötig; { $hint }
aquifer-units-differ = „{ $from }“ lässt sich nicht in „{ $to }“ umrechnen
aquifer-unit-not-known = eine unbekannte Einheit
aquifer-not-converged = { $what } kam nach { $iterations ->
    [one] { $iterations } Schritt
   *[other] { $iterations } Schritten
} zu keinem Ende (Rest { $residual })
aquifer-more-than-nought = mehr als { $nought }
aquifer-in-rows = { $why } (well_section, Zeile { $rows })
aquifer-radius-of-section = Radius des Abschnitts { $section }
aquifer-section = Abschnitt { $section } ({ $material })
aquifer-screen = Filter { $screen }
aquifer-layer = Schicht „{ $layer }“
aquifer-sections = Abschnitte
aquifer-screens = Filter
aquifer-layers = Schichten
aquifer-lower-end-deeper = ein unteres Ende tiefer als das obere, beide in m unter Gelände
aquifer-overlap = „{ $upper }“ { $from } bis { $to } überschneidet sich mit „{ $lower }“ { $next } bis { $end }
aquifer-one-after-the-other = nacheinander, ohne Überschneidung
aquifer-depth-of-well = Tiefe des Brunnens
aquifer-lower-end = unteres Ende: { $stretch ->
    [screen] Filter
    [section] Abschnitt
   *[other] { $stretch }
}
aquifer-below-bottom = { $depth }, unter der Sohle des Brunnens
aquifer-at-most = höchstens { $most }
aquifer-gauge-pressure = Druck am Manometer
aquifer-gauge-pressure-allowed = 0 oder mehr über dem Luftdruck; wo das Wasser unter dem Manometer steht, die Tiefe bis zum Wasser messen
aquifer-gauge-height = Höhe des Manometers
aquifer-gauge-height-allowed = Meter über Gelände, darunter negativ
aquifer-water-temperature = Wassertemperatur
aquifer-between = { $low } bis { $high }
aquifer-drawdown = Absenkung
aquifer-radius-of-well = Radius des Brunnens
aquifer-pumping-rate = Förderrate
aquifer-distance-of-watched-well = Abstand des beobachteten Brunnens
aquifer-readings = Messwerte { $reading ->
    [flow] der Schüttung
    [drawdown] der Absenkung
   *[other] von { $reading }
}
aquifer-read-more-often = zwei Punkte liegen immer auf der Kurve; öfter ablesen, am Anfang in kürzeren Abständen
aquifer-time-of-reading = Zeit des Messwerts { $reading }
aquifer-after-the-start = mehr als 0 s seit dem Beginn
aquifer-value-of-reading = { $what ->
    [flow] Schüttung
    [drawdown] Absenkung
   *[other] { $what }
} des Messwerts { $reading }
aquifer-flow-in-time = Schüttung in der Zeit
aquifer-flow-does-not-fall = eine Schüttung, die nicht fällt
aquifer-falling-flow = eine fallende Schüttung: Ein Brunnen bei gleicher Druckhöhe gibt immer weniger; steigt die Schüttung, so wurde die Druckhöhe nicht gehalten, oder der Brunnen spült sich frei
aquifer-drawdown-in-time = Absenkung in der Zeit
aquifer-drawdown-does-not-grow = eine Absenkung, die nicht wächst
aquifer-growing-drawdown = eine wachsende Absenkung bei gleicher Förderung
aquifer-fit = Die Anpassung des Versuchs
aquifer-fit-of-storage = Die Anpassung des Versuchs: Die Daten krümmen sich nicht wie die Kurve; der Speicherkoeffizient
aquifer-input = { $input ->
    [distance] Entfernung
    [gradient] Gefälle
    [flow] Schüttung
    [transmissivity] Transmissivität
    [effective-porosity] durchflusswirksame Porosität
    [hydraulic-conductivity] Durchlässigkeit
    [recharge-level] Spiegel des Neubildungsgebiets
    [head-at-the-well] Druckhöhe am Brunnen
   *[other] { $input }
}
aquifer-value-with-u = { $value } mit u { $u }
aquifer-metres-with-u = eine Zahl in m mit u von 0 oder mehr
aquifer-above-the-head = über der Druckhöhe am Brunnen, { $head }: Wasser fließt nicht bergauf
aquifer-above-nought-or-range = ein Wert über 0 mit u von mindestens 0 oder ein Bereich von über 0 aufwärts
aquifer-porosity = Porosität
aquifer-share-not-percent = ein Anteil bis 1, nicht Prozent
aquifer-draws = Ziehungen
aquifer-waters-to-mix = zu mischende Wässer
aquifer-give-river = den Bach angeben und was in ihn fließt
aquifer-flow-of-all = Abfluss aller Wässer
aquifer-flow-of = Abfluss von { $water }
aquifer-nought-or-more = ein Wert von 0 oder mehr
aquifer-analyte-of-water = { $analyte } eines Wassers
aquifer-above-its-range = über dem Messbereich
aquifer-value-or-non-detect = ein Wert oder „nicht nachgewiesen“: verdünnen und neu messen
aquifer-parameter-and-rule = Größe und Regel
aquifer-one-of = eines von { $known }
aquifer-later-than = später als die { $before } des Messwerts davor
aquifer-spaced-readings = Messwerte { $parameter ->
    [temperature] der Temperatur
    [conductivity] der Leitfähigkeit
    [pH] des pH
    [redox] des Redoxpotentials
    [dissolved-oxygen] des gelösten Sauerstoffs
    [turbidity] der Trübung
   *[other] von { $parameter }
} im Abstand von mindestens { $spacing }
aquifer-go-on-reading = weiter ablesen
