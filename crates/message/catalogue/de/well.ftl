well-no-fill = Keine Füllung wurde gestoppt, also sind Schüttung und Kontaktzeit nicht bekannt.
well-log-gap = Das Schichtenverzeichnis sagt von { $from } bis { $to } nichts.
well-no-screen = Die Aufzeichnung hat weder Filter noch offenes Bohrloch: Welche Schicht den Brunnen speist, ist nicht bekannt.
well-flow = Der Brunnen schüttet { $flow } nach { $fills ->
    [one] { $fills } gestoppten Füllung
   *[other] { $fills } gestoppten Füllungen
}.
well-flow-loose = Die Schüttung, { $flow }, ist nur auf { $known } bekannt; das Programm verlangt { $asked }: mehr Füllungen stoppen.
well-flow-one-fill = Die Schüttung ist { $flow } nach einer gestoppten Füllung, ihre Unsicherheit ist also nicht bekannt: drei Füllungen oder mehr stoppen.
well-flow-steady = Die Schüttung änderte sich über die Füllungen nicht über ihre Streuung hinaus (p { $p }).
well-flow-fell = Die Schüttung fiel über die Füllungen um { $change } (p { $p }): Sie war noch nicht konstant.
well-flow-rose = Die Schüttung stieg über die Füllungen um { $change } (p { $p }): Sie war noch nicht konstant.
well-contact-in = { $time } in { $material ->
    [galvanised-steel] verzinktem Stahl
    [stainless-steel] Edelstahl
    [iron] Eisen
    [cast-iron] Gusseisen
    [copper] Kupfer
    [steel] Stahl
   *[other] { $material }
}
well-contact-next = { $before }, { $next }
well-contact-short = Das Wasser berührt das Rohr { $contact }: innerhalb der { $longest } des Programms.
well-contact-long = Das Wasser berührt das Rohr { $contact }: länger als die { $longest } des Programms, das Rohr kann also in den Metallen mitsprechen.
well-rule = { $readings ->
    [one] { $readings } Messwert
   *[other] { $readings } Messwerte hintereinander
}, mindestens { $spacing } auseinander, höchstens { $width } { $unit ->
    [degC] °C
   *[other] { $unit }
} von ihrem Mittel ({ $source }, { $seen ->
    [recalled] aus dem Gedächtnis
    [seen-in-part] zum Teil gesehen
    [seen-in-a-secondary-source] in einer zweiten Quelle gesehen
   *[other] { $seen }
})
well-rule-larger = { $readings ->
    [one] { $readings } Messwert
   *[other] { $readings } Messwerte hintereinander
}, mindestens { $spacing } auseinander, höchstens { $width } { $unit ->
    [degC] °C
   *[other] { $unit }
} oder { $relative } von ihrem Mittel, das größere von beiden ({ $source }, { $seen ->
    [recalled] aus dem Gedächtnis
    [seen-in-part] zum Teil gesehen
    [seen-in-a-secondary-source] in einer zweiten Quelle gesehen
   *[other] { $seen }
})
well-rule-none = kein Band gilt bei diesem Mittel
well-reading-steady = { $parameter ->
    [temperature] Die Temperatur
    [conductivity] Die Leitfähigkeit
    [pH] Der pH
    [redox] Das Redoxpotential
    [dissolved-oxygen] Der gelöste Sauerstoff
    [turbidity] Die Trübung
   *[other] { $parameter }
} ist seit { $since } konstant: { $rule }.
well-reading-not-steady = { $parameter ->
    [temperature] Die Temperatur
    [conductivity] Die Leitfähigkeit
    [pH] Der pH
    [redox] Das Redoxpotential
    [dissolved-oxygen] Der gelöste Sauerstoff
    [turbidity] Die Trübung
   *[other] { $parameter }
} ist nicht konstant; die Regel lautet: { $rule }.
well-readings-too-few = Ob konstant oder nicht, lässt sich nicht sagen: Messwerte { $parameter ->
    [temperature] der Temperatur
    [conductivity] der Leitfähigkeit
    [pH] des pH
    [redox] des Redoxpotentials
    [dissolved-oxygen] des gelösten Sauerstoffs
    [turbidity] der Trübung
   *[other] von { $parameter }
} mindestens { $spacing } auseinander: { $have } gegeben, mindestens { $need } nötig; weiter ablesen.
well-readings-backwards = Ob konstant oder nicht, lässt sich nicht sagen: Zeit des Messwerts { $reading }: gefunden { $time }, erwartet später als die { $before } des Messwerts davor.
well-readings-no-rule = Ob konstant oder nicht, lässt sich nicht sagen: Größe und Regel: gefunden { $parameter ->
    [temperature] Temperatur
    [conductivity] Leitfähigkeit
    [redox] Redoxpotential
    [dissolved-oxygen] gelöster Sauerstoff
    [turbidity] Trübung
   *[other] { $parameter }
} ({ $rule }), erwartet eines von { $known }.
well-rule-of = { $parameter ->
    [temperature] Temperatur
    [conductivity] Leitfähigkeit
    [redox] Redoxpotential
    [dissolved-oxygen] gelöster Sauerstoff
    [turbidity] Trübung
   *[other] { $parameter }
} ({ $rule })
well-renewed = Das Wasser im Brunnen wurde seit dem Öffnen { $times }-mal erneuert; höchstens { $left } des Standwassers sind noch da.
well-renewed-too-little = Das Wasser im Brunnen wurde seit dem Öffnen { $times }-mal erneuert, das Programm verlangt { $least }-mal: Bis zu { $left } des Standwassers sind noch da.
well-age-with-u = { $age } ± { $u } Jahre
well-age-over = über { $age } Jahre
well-age-under = unter { $age } Jahre
well-age-within = Das Alter nach { $tracer ->
    [tracer] einem Tracer
    [tritium] Tritium
    [radiocarbon] Radiokohlenstoff
   *[other] { $tracer }
}, { $age }, liegt innerhalb der Fließzeit nach Darcy, { $low } bis { $high } Jahre.
well-age-contradicts = Das Alter nach { $tracer ->
    [tracer] einem Tracer
    [tritium] Tritium
    [radiocarbon] Radiokohlenstoff
   *[other] { $tracer }
}, { $age }, widerspricht der Fließzeit nach Darcy, { $low } bis { $high } Jahre: Der Weg, die Porosität oder die Mischung der Wässer ist nicht wie angenommen.
well-plus-minus = ({ $number }) { $unit }
well-without-u = { $amount } †
well-section = Der Brunnen { $well }
well-construction-cannot-be = Der verzeichnete Ausbau kann nicht sein: { $why }. Er ist nicht gezeichnet.
well-on-trip = Bei der Probenahme { $trip }
well-not-told = Was die Aufzeichnung von diesem Brunnen nicht sagt, und warum:
well-drawing = Der Brunnen { $well }, Tiefen maßstäblich
well-drawing-shows = Schnitt durch den Brunnen { $well }, Tiefen maßstäblich.
well-drawing-layer = { $layer } von { $from } bis { $to }.
well-drawing-pipe = Rohr aus { $material ->
    [galvanised-steel] verzinktem Stahl
    [stainless-steel] Edelstahl
    [iron] Eisen
    [cast-iron] Gusseisen
    [copper] Kupfer
    [steel] Stahl
    [open-hole] offenem Bohrloch
    [material-not-stated] nicht angegebenem Werkstoff
   *[other] { $material }
} von { $from } bis { $to }.
well-drawing-caption = { $well }: Schichten, wie der Bohrmeister sie schrieb, Vollrohr und Filter, und der Spiegel des geschlossenen Brunnens, wo er gemessen wurde. Tiefen maßstäblich.
well-head-stands = Druckhöhe: Das Wasser des geschlossenen Brunnens steht { $head } über Gelände
well-flows = schüttet { $flow }
well-drawn-to-scale = Tiefen maßstäblich, { $depth } insgesamt; die Weiten des Rohrs im Verhältnis zueinander, die weiteste { $widest } innen.
well-drawn-without-pipe = Tiefen maßstäblich. Vollrohr und Filter sind nicht verzeichnet.
well-depth = Tiefe
well-depth-below-ground = Tiefe unter Gelände
well-layer-drawn = { $layer }, { $from } bis { $to }
well-head-not-measured = Druckhöhe des geschlossenen Brunnens: nicht gemessen
well-flow-not-measured = Schüttung: nicht gemessen
well-pipe-not-on-record = Vollrohr und Filter: nicht verzeichnet
well-layers-not-on-record = Schichten: nicht verzeichnet
well-pipe-drawn = { $kind ->
    [casing] Vollrohr
    [screen] Filter
   *[open] offenes Bohrloch
}, { $from } bis { $to }, lichte Weite { $width }
well-pipe-drawn-of = { $kind ->
    [casing] Vollrohr
    [screen] Filter
   *[open] offenes Bohrloch
}, { $material }, { $from } bis { $to }, lichte Weite { $width }
well-material = { $material ->
    [galvanised-steel] verzinkter Stahl
    [stainless-steel] Edelstahl
    [iron] Eisen
    [cast-iron] Gusseisen
    [copper] Kupfer
    [steel] Stahl
    [open-hole] offenes Bohrloch
    [material-not-stated] Werkstoff nicht angegeben
   *[other] { $material }
}
well-quantity = { $quantity ->
    [temperature] Temperatur
    [conductivity] Leitfähigkeit
    [dissolved-oxygen] gelöster Sauerstoff
    [turbidity] Trübung
   *[other] { $quantity }
}
well-measured = Was an { $well } gemessen wurde, Probenahme { $trip }
well-timed-fills = { $fills ->
    [one] { $fills } gestoppte Füllung
   *[other] { $fills } gestoppte Füllungen
}
well-no-fill-timed = keine Füllung wurde gestoppt
well-fill-cannot-be = eine gestoppte Füllung kann nicht sein: siehe die Befunde
well-water-in-well = Wasser im Brunnen
well-depths-and-radii = Tiefen und Radien der Aufzeichnung
well-contact-in-all = Kontakt mit dem Rohr, gesamt
well-volume-over-flow = Volumen durch Schüttung
well-head-above-ground = Druckhöhe über Gelände
well-shut-pressure = Druck des geschlossenen Brunnens
well-shut-pressure-between = Druck des geschlossenen Brunnens, geschlossen von { $shut } bis { $opened }
well-head-above-sea-level = Druckhöhe über dem Meer
well-ground-taken-exact = mit der Geländehöhe, als genau genommen
well-transmissivity = Transmissivität T
well-constant-head-test = Versuch bei gleichbleibender Druckhöhe, volle Funktion; 95 %: { $low } bis { $high }
well-storage = Speicherkoeffizient S
well-same-test = derselbe Versuch; 95 %: { $low } bis { $high }
well-washout = Wie sich das Standwasser von { $well } nach dem Öffnen des Ventils verlor
well-stood-in-well = stand im Brunnen
well-aquifer-gives = gibt der Grundwasserleiter
well-one-percent-after = noch 1 % nach
well-volume-taking-part = Volumen, das teilnimmt
well-state = Stand
well-still-changing = änderte sich beim letzten Messwert noch
well-at-its-end = zu Ende
well-washout-fitted = Eine Exponentialfunktion vom Standwasser zum Wasser des Grundwasserleiters; ein Messwert, der sich nicht krümmt, wird nicht angepasst. Das u des Volumens ist das der Rate, das der Schüttung selbst ist nicht darin.
well-all-of-material = { $material }, zusammen
well-contact = Wie lange das Wasser jeden Abschnitt von { $well } berührt, von oben nach unten
well-length = Länge
well-inner-width = lichte Weite
well-water-held = Wasser darin
well-wall = Wand
well-contact-as-plug = Volumen durch Schüttung, als Pfropf; das u ist das der Schüttung.
well-were-readings-steady = Waren die Messwerte an { $well } vor den Flaschen konstant?
well-times-read = Mal abgelesen
well-steady = konstant
well-since = seit
well-not-steady = nicht konstant
well-what-steady-shows = Ein konstanter Messwert zeigt, dass sich nichts mehr ändert, nicht, dass das Wasser das des Grundwasserleiters ist. Temperatur, Leitfähigkeit und pH entscheiden; Redox und Sauerstoff werden genannt.
well-flow-test = Schüttungsversuch von { $well }, { $drawdown } Absenkung gehalten
well-flow-test-shows = Schüttung von { $well } in der Zeit nach dem Öffnen, mit der angepassten Kurve und ihren Residuen.
well-flow-test-holds = T { $transmissivity }, S { $storage } (95 %: { $low } bis { $high }); dem Modell wird nicht widersprochen.
well-flow-test-bends = T { $transmissivity }, S { $storage } (95 %: { $low } bis { $high }); die Daten biegen vom Modell ab.
well-flow-axis = Schüttung, L/min
well-flow-test-caption = Schüttung von { $well } nach dem Öffnen bei gleichbleibender Druckhöhe: gemessen, angepasst mit der vollen Funktion von Jacob & Lohman 1952, und was übrig bleibt.
well-fitted-curve = angepasste Kurve
well-moves-the-answer = ändert die Antwort um mehr als ihr u
well-minutes-since = Minuten seit Beginn des Versuchs
well-left-over = Rest, in Standardabweichungen
well-left-over-pale = Rest, in Standardabweichungen; blass: wo 95 % davon liegen sollten
well-model-no-bend = Die Residuen zeigen keinen Knick und keine Folgen: Die Daten sprechen nicht gegen einen gespannten, gleichförmigen Grundwasserleiter.
well-model-bends = Die Daten biegen vom Modell ab (Knick p { $bend }, Folgen p { $runs }): Ein Leck, ein Rand, eine Änderung des Brunnens oder der Druckhöhe sind nicht darin, T und S gelten also bestenfalls für einen Teil des Versuchs.
well-model-without-first = Ohne die ersten Punkte ändert sich T um bis zu { $transmissivity } und S um einen Faktor bis { $storage }.
well-model-rests-on-first = Ohne die ersten Punkte ändert sich T um bis zu { $transmissivity } und S um einen Faktor bis { $storage }: S beruht weit mehr als T auf den frühen Messwerten.
well-model-beyond-scatter = Das ist mehr, als Streuung erklärt: Das angegebene u ist für diesen Grundwasserleiter zu klein.
well-scheme = Vom Neubildungsgebiet zu { $well }
well-scheme-shows = Schema des Wegs des Wassers von seinem Neubildungsgebiet, { $level } über dem Meer und { $distance } entfernt, zu { $well }.
well-recharge-area = Neubildungsgebiet, { $level } über dem Meer
well-ground = { $well }, Gelände { $level } über dem Meer
well-head-along = Druckhöhe: vom Spiegel des Neubildungsgebiets auf { $head } über dem Meer am Brunnen, Gefälle { $gradient }
well-way-of-water = Weg des Wassers: { $years }
well-years = { $low } bis { $high } Jahre (95 %), Mitte { $middle }
well-scheme-caption = Woher das Wasser von { $well } kommt: ein Schema, nicht maßstäblich.
well-schematic = Schematisch, nicht maßstäblich.
well-distance-not-on-record = Entfernung: nicht verzeichnet
well-aquifer-layer = Grundwasserleiter: { $layer }
well-aquifer-not-on-record = Grundwasserleiter: Schicht am Filter: nicht verzeichnet
well-cover-layers = Deckschicht: { $layers }
well-cover-not-on-record = Deckschicht: Schichten darüber: nicht verzeichnet
well-head-no-line = Druckhöhe entlang des Wegs: nicht bekannt, keine Linie gezeichnet
well-travel-time = Fließzeit nach Darcy: { $years }. Der größte Teil der Spanne kommt aus { $input ->
    [distance] der Entfernung
    [gradient] dem Gefälle
    [effective-porosity] der durchflusswirksamen Porosität
    [hydraulic-conductivity] der Durchlässigkeit
   *[other] { $input }
} ({ $part } davon). Keine Dispersion, keine zeitliche Änderung des Gefälles: Die Spanne ist die ehrliche Antwort.
well-known-by-measurement = Durch Messung an diesem Brunnen oder auf der Karte bekannt:
well-taken-from-textbook = Einem Lehrbuch entnommen:
well-nothing = Nichts
well-capture = In einem gleichförmigen Strömungsfeld zieht der Brunnen weit oberstrom aus einem { $width } breiten Streifen (95 %: { $low } bis { $high }); Wasser bis { $stagnation } unterstrom kehrt noch zu ihm um.
well-range = { $low } bis { $high }
well-input-distance = Entfernung: { $value }, { $origin }
well-input-gradient = Gefälle: { $value }, { $origin }
well-input-conductivity = Durchlässigkeit: { $value }, { $origin }
well-input-porosity = Durchflusswirksame Porosität: { $value }, { $origin }
well-origin-record = Aufzeichnung
well-origin-head-and-level = Druckhöhe des geschlossenen Brunnens und Spiegel des Neubildungsgebiets
well-origin-flow-test = Schüttungsversuch, T über { $thickness } { $layer }
well-origin-textbook = { $formation }, { $source } ({ $seen ->
    [recalled] aus dem Gedächtnis
    [seen] gesehen
   *[other] { $seen }
})
well-origin-textbook-noted = { $formation }, { $source }; { $note } ({ $seen ->
    [recalled] aus dem Gedächtnis
    [seen] gesehen
   *[other] { $seen }
})
well-choice = { $metal } aus dem Rohr von { $well } gegen das verbrauchte Wasser
well-choice-shows = Was das Rohr von { $well } höchstens an { $metal } hinzufügt, über der Schüttung und dem im Jahr verbrauchten Wasser.
well-choice-bound = Eine obere Grenze: als ob alles gefundene { $metal }, höchstens { $most }, vom Rohr käme. Der eigene Teil des Grundwasserleiters macht es weniger.
well-choice-axis = { $metal } höchstens, ng/L
well-choice-caption = { $well }: Eine größere Schüttung lässt weniger { $metal } des Rohrs in jedem Liter und verbraucht mehr Wasser. Das Ziel ist die eigene Wahl des Programms.
well-choice-now = jetzt: { $flow }, höchstens { $added }, { $water } Wasser im Jahr
well-choice-enough = kleinste Schüttung, die das Ziel hält: { $flow }, höchstens { $added }, { $water } Wasser im Jahr
well-choice-target = Ziel, { $target }
well-water-a-year = im Jahr verbrauchtes Wasser, m³
well-head-without-pressure = Druckhöhe: Kein Druck des geschlossenen Brunnens ist verzeichnet.
well-head-without-gauge = Druckhöhe: Ein Druck wurde abgelesen, aber nicht, wie hoch das Manometer über dem Gelände stand (darunter: eine negative Höhe), die Druckhöhe ist also nicht bekannt.
well-head-not-known = Druckhöhe: { $why }.
well-test-without-opening = Schüttungsversuch: Die Aufzeichnung sagt nicht, wann das Ventil geöffnet wurde.
well-test-without-outlet = Schüttungsversuch: Die Höhe des Auslaufs ist nicht verzeichnet.
well-test-without-radius = Schüttungsversuch: Der Radius des Brunnens ist nicht verzeichnet.
well-test-time-cannot-be-read = Schüttungsversuch: eine Zeit, die sich nicht lesen lässt.
well-test-flow-in-other-unit = Schüttungsversuch: Die Schüttung vom { $at } ist in { $unit } angegeben, das ist kein Volumen je Zeit.
well-test-not-fitted = Schüttungsversuch: { $why }.
well-travel-without-distance = Fließzeit: Keine Entfernung zum Neubildungsgebiet ist verzeichnet.
well-travel-without-level = Fließzeit: Kein Spiegel des Neubildungsgebiets ist verzeichnet.
well-travel-without-head = Fließzeit: Die Druckhöhe über dem Meer ist nicht bekannt.
well-travel-without-layer = Fließzeit: Keine Schicht des Verzeichnisses liegt am Filter.
well-travel-without-conductivity = Fließzeit: Es gab keinen Schüttungsversuch, und die Formationstabelle hat keine Durchlässigkeit von „{ $layer }“.
well-travel-without-porosity = Fließzeit: Die Formationstabelle hat keine Porosität von „{ $layer }“.
well-travel-not-told = Fließzeit: { $why }.
well-noted = „{ $words }“
