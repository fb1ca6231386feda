### Wie Ergebnisse eines Messlaufs, einer Standardaddition und einer Isotopenverdünnung zustande kamen.

step_measurement-run = Zählwerte → Totzeit → Untergrund → Überlagerungen → interner Standard → Drift → gewichtete Gerade → Verdünnung → Blindprobe
step_measurement-recipe = Rezept „{ $recipe }“
step_measurement-stock = Stammlösung „{ $stock }“
step_measurement-position = Messlauf „{ $run }“, Platz { $position }
step_measurement-replicates = Messlauf „{ $run }“, Platz { $position }: Wiederholungen { $rates } Impulse/s, je { $time }
step_measurement-instrument-mean = Messlauf „{ $run }“, Platz { $position }: Mittel aus { $n ->
    [one] { $n } Wiederholung
   *[other] { $n } Wiederholungen
}, wie das Gerät es angab
step_measurement-dead-time = Totzeit τ
step_measurement-cross-factor = Umrechnungsfaktor X des Analogmodus
step_measurement-overlap-factor = Überlagerungsfaktor f, { $target } je { $monitor }
step_measurement-overlap-factor-in = Überlagerungsfaktor f, { $target } je { $monitor }, in „{ $vial }“
step_measurement-overlap-formula = (T − T der Kalibrierblindproben) / (M − M der Kalibrierblindproben)
step_measurement-overlap-measured = in diesem Messlauf gemessen, in einem Gefäß mit dem störenden Element allein
step_measurement-observed-rate = beobachtete Zählrate n, { $isotope } in „{ $vial }“
step_measurement-rate-after-dead-time = Zählrate N nach der Totzeit, { $isotope } in „{ $vial }“
step_measurement-rate-after-cross-factor = Zählrate N nach dem Umrechnungsfaktor, { $isotope } in „{ $vial }“
step_measurement-background = Gasuntergrund B, { $isotope }
step_measurement-background-mean = Mittel der Untergrundgefäße dieses Messlaufs
step_measurement-rate-minus-background = Zählrate minus Untergrund, { $isotope } in „{ $vial }“
step_measurement-response = Signal R, { $analyte } in „{ $vial }“
step_measurement-response-formula = { $formula }; Wiederholung für Wiederholung, dann das Mittel
step_measurement-response-over-standard = { $formula } / I, I = { $i } der interne Standard durch sein Mittel in der Kalibrierung; Wiederholung für Wiederholung, dann das Mittel
step_measurement-without-drift = Signal ohne Drift, „{ $vial }“
step_measurement-drift-formula = y = R / g(t), g({ $time }) = { $g } aus den Driftkontrollen
step_measurement-assigned = zugewiesener Wert, { $element } in „{ $vial }“
step_measurement-line-free = gewichtete kleinste Quadrate y = a + b·x, Gewichte 1/u², Kalibrierblindproben bei null
step_measurement-line-through-blank = gewichtete kleinste Quadrate durch das Mittel der Kalibrierblindproben
step_measurement-line-through-zero = gewichtete kleinste Quadrate durch null
step_measurement-line = { $how }; cov(a, b) = { $covariance }; χ² = { $chi } bei { $dof ->
    [one] { $dof } Freiheitsgrad
   *[other] { $dof } Freiheitsgraden
}; u auf das { $widened }-Fache erweitert
step_measurement-with-weights = JCGM 100 H.3, mit Gewichten
step_measurement-intercept = Achsenabschnitt a
step_measurement-slope = Steigung b, je { $unit }
step_measurement-gross = Bruttokonzentration, „{ $vial }“
step_measurement-dilution-by-mass = Verdünnung D von „{ $vial }“, nach Masse
step_measurement-dilution-by-volume = Verdünnung F von „{ $vial }“, nach Volumen
step_measurement-density = Dichte ρ des Wassers in „{ $bottle }“
step_measurement-density-of-diluent = Dichte r der Säure, mit der verdünnt wurde
step_measurement-density-letters = D die Verdünnung nach Masse, ρ die Dichte des Wassers, r die des Verdünnungsmittels
step_measurement-volume-of-water = Volumen V des Wassers in „{ $bottle }“
step_measurement-acid-added = Säure v, zugegeben zu „{ $bottle }“
step_measurement-acid-in-bottle = Säure in der Flasche „{ $bottle }“, Faktor A von der Lösung zum Wasser
step_measurement-volumes-add-up = die Volumina von Wasser und Säure addieren sich
step_measurement-recorded-at-bottle = bei der Flasche eingetragen
step_measurement-acid-without-u = bei der Flasche ohne u eingetragen; angesetzt ist ein Zwanzigstel davon
step_measurement-own-choice = eigene Wahl des Programms
step_measurement-between-vials = Reproduzierbarkeit zwischen Gefäßen einer Lösung, als Faktor
step_measurement-from-drift-checks = aus den Driftkontrollen dieses Messlaufs
step_measurement-blank = { $role ->
    [procedural-blank] Verfahrensblindprobe
    [bottle-blank] Flaschenblindprobe
    [trip-blank] Transportblindprobe
    [field-blank] Feldblindprobe
    [calibration-blank] Kalibrierblindprobe
    [equipment-blank] Geräteblindprobe
   *[other] Blindprobe
} b
step_measurement-blanks = { $count } { $role ->
    [procedural-blank] { $count ->
        [one] Verfahrensblindprobe
       *[other] Verfahrensblindproben
    }
    [bottle-blank] { $count ->
        [one] Flaschenblindprobe
       *[other] Flaschenblindproben
    }
    [trip-blank] { $count ->
        [one] Transportblindprobe
       *[other] Transportblindproben
    }
    [field-blank] { $count ->
        [one] Feldblindprobe
       *[other] Feldblindproben
    }
    [calibration-blank] { $count ->
        [one] Kalibrierblindprobe
       *[other] Kalibrierblindproben
    }
    [equipment-blank] { $count ->
        [one] Geräteblindprobe
       *[other] Geräteblindproben
    }
   *[other] { $count ->
        [one] Blindprobe
       *[other] Blindproben
    }
}
step_measurement-blanks-mean = Mittel aus { $blanks }, Standardabweichung zwischen ihnen { $sd }
step_measurement-blanks-location = Lage nach Huber aus { $blanks }, Standardabweichung zwischen ihnen { $sd }
step_measurement-net = Nettokonzentration, „{ $vial }“
step_measurement-net-by-volume = c − b/V, b die Masse je Flasche, V das Volumen der Flasche
step_measurement-net-u = u enthält s² der Blindproben für diese Flasche und s²/n für ihr Mittel
step_measurement-at-most = höchstens, „{ $vial }“
step_measurement-at-most-formula = einseitige obere 95-%-Schranke des Nettowerts: einen Abschnitt des Weges erfasste keine Blindprobe, also steckt noch darin, was er brachte
step_measurement-net-by-recipe = abzüglich { $blanks } des Messlaufs, die andere Luft oder einen anderen Brunnen trafen, „{ $vial }“
step_measurement-net-by-recipe-formula = c − b mit der Blindprobe des Rezepts; nicht berichtet
step_measurement-net-over-recovery = Nettokonzentration ÷ Wiederfindung, „{ $vial }“
step_measurement-net-over-recovery-formula = netto / R
step_measurement-recovery = Wiederfindung R
step_measurement-recovery-of-field-spikes = Mittel der Aufstockungen im Feld in diesem Messlauf
step_measurement-recovery-of-laboratory-spikes = Mittel der Aufstockungen im Labor in diesem Messlauf
step_measurement-recovery-given = im Rezept angegeben
step_measurement-spike-added = zur Aufstockung „{ $vial }“ zugesetztes Metall
step_measurement-spike-added-from = mit der Aufstockung aufgezeichnet
step_measurement-part-replicates = Wiederholungen dieses Gefäßes
step_measurement-part-between-vials = Reproduzierbarkeit zwischen Gefäßen
step_measurement-part-dilution = Verdünnung
step_measurement-part-bottle = Blindprobe, von Flasche zu Flasche
step_measurement-part-blank-mean = Blindprobe, Mittel
step_measurement-part-line = Zählwerte der Kalibriergeraden
step_measurement-part-assigned = zugewiesene Werte der Standards
step_measurement-part-drift = Driftkontrollen
step_measurement-part-interference = Überlagerungsfaktor
step_measurement-part-dead-time = Totzeit
step_measurement-part-analogue = Umrechnungsfaktor des Analogmodus
step_measurement-part-background = Gasuntergrund
step_measurement-part-recovery = Wiederfindung
step_measurement-part-volume = Volumen des Wassers in der Flasche
step_measurement-part-acid = Säure in der Flasche
step_measurement-addition = Standardaddition
step_measurement-addition-intercept = Achsenabschnitt der Zugaben
step_measurement-addition-fit = gewichtete kleinste Quadrate des Signals gegen die zugegebene Konzentration
step_measurement-addition-slope = Steigung der Zugaben
step_measurement-addition-fit-slope = gewichtete kleinste Quadrate; die Kovarianz mit dem Achsenabschnitt bleibt erhalten
step_measurement-addition-blank = Signal der Blindprobe
step_measurement-addition-in-solution = Konzentration in der gemessenen Lösung
step_measurement-addition-in-solution-formula = (Achsenabschnitt − Blindprobe) / Steigung
step_measurement-addition-dilution = Verdünnungsfaktor
step_measurement-addition-in-sample = Konzentration in der Probe
step_measurement-addition-in-sample-formula = × Verdünnungsfaktor
step_measurement-part-addition-line = Gerade
step_measurement-isotope-dilution = Isotopenverdünnung
step_measurement-blend-ratio = Verhältnis der Mischung nach Korrektur der Massendiskriminierung
step_measurement-sample-content = Gehalt der Probe

step_measurement-dark-rate = Dunkelzählrate des Detektors, { $isotope }
step_measurement-part-drift-open = Drift außerhalb der Driftkontrollen
step_measurement-unseen-handling = angenommen ist, dass Proben so sauber behandelt wurden wie die Blindproben: Ein Metall, das nur die Behandlung der Proben einträgt, sieht aus wie Metall des Wassers; zwei Flaschen eines Wassers, von zwei Personen oder nach verschieden langem Warten gefüllt, würden es zeigen
step_measurement-unseen-skew = bei { $blanks ->
    [one] { $blanks } Blindprobe
   *[other] { $blanks } Blindproben
} ist ihre Verteilungsform nicht zu erkennen: Sind sie schief verteilt, wird in sauberem Wasser öfter ein Nachweis gemeldet als mit der angegebenen Wahrscheinlichkeit; { $least } oder mehr Blindproben der Charge würden es zeigen
step_measurement-unseen-vial = angenommen ist, dass die Datei jedes gemessene Gefäß enthält: Eines, das weggelassen wurde, hinterlässt hier keine Spur; die eigene Messliste des Geräts würde es zeigen
step_measurement-unseen-wave = angenommen ist, dass sich die Empfindlichkeit nicht schneller änderte, als die Driftkontrollen zeigen: Eine Welle dazwischen bleibt ungesehen, und keine Lösung wurde dazwischen zweimal gemessen; ein Referenzmaterial, im Messlauf mehrmals gemessen, würde es zeigen
step_measurement-unseen-runs = u gilt für diesen Messlauf: Was sich von Messlauf zu Messlauf unterscheidet (neue Standards, das Plasma eines anderen Tages), ist nicht darin; eine Kontrollprobe, in jedem Messlauf gemessen, zeigt es
step_measurement-blanks-mean-of-runs = Mittel aus { $blanks }, Standardabweichung zwischen ihnen { $sd } mit { $dof } Freiheitsgraden: ihre eigene, { $own }, zusammengefasst mit der früherer Messläufe ({ $runs }), die mit ihr übereinstimmt
step_measurement-spread-of-all-vials = u aus den Wiederholungen aller Gefäße des Messlaufs zusammen: das { $phi }-Fache der Zählvarianz und { $flicker } des Signals je Wiederholung; { $dof } Freiheitsgrade
step_measurement-spread-of-this-vial = u aus den Wiederholungen dieses Gefäßes allein, die { $times }-mal so stark streuen wie die der anderen
step_measurement-spread-of-counting = u allein aus der Zählstatistik; wo nichts gezählt wurde, die eines Impulses
