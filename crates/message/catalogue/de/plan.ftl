plan-the-metal = das Metall
plan-no-level = einem nicht genannten Gehalt
plan-no-number = einer nicht genannten Zahl
plan-detect = Wird { $metal } mit { $level } nachgewiesen?
plan-limit = Zeigt sich, dass { $metal } mit { $level } auf seiner Seite von { $limit } liegt?
plan-lower = Zeigt sich, dass { $metal } mit { $lower } niedriger ist als mit { $higher }?
plan-trend = Wird eine Änderung ({ $metal }) von { $percent } % im Jahr über { $years } Jahre gesehen?
plan-detection-limit = Wird für { $metal } eine Nachweisgrenze von { $limit } erreicht?

plan-cheapest = Der günstigste: entscheidet mit { $chance } Aussicht, weist { $limit } nach.
plan-more = Für { $price } mehr, { $changes }: entscheidet mit { $chance } statt { $before } Aussicht, weist { $limit } nach.
plan-bottles-more = { $bottles } mehr
plan-bottles-less = { $bottles } weniger
plan-volume = { $now } statt { $before }
plan-open = { $now } offen statt { $before }
plan-sample-bottles = { $n ->
    [one] { $n } Probenflasche
   *[other] { $n } Probenflaschen
}
plan-field-blanks = { $n ->
    [one] { $n } Feldblindprobe
   *[other] { $n } Feldblindproben
}
plan-trip-blanks = { $n ->
    [one] { $n } Transportblindprobe
   *[other] { $n } Transportblindproben
}
plan-bottle-blanks = { $n ->
    [one] { $n } Flaschenblindprobe
   *[other] { $n } Flaschenblindproben
}
plan-spikes = { $n ->
    [one] { $n } Aufstockung
   *[other] { $n } Aufstockungen
}

plan-pack-samples = { $well }: { $bottles } zu { $volume }, höchstens { $minutes } offen
plan-pack-field-blanks = { $blanks }: am Brunnen geöffnet und gefüllt wie eine Probe, { $volume }
plan-pack-trip-blanks = { $blanks }: zu Hause gefüllt, mitgenommen, nie geöffnet, { $volume }
plan-pack-bottle-blanks = { $blanks }: zu Hause gefüllt und dort gelassen, { $volume }
plan-pack-spikes = { $n ->
    [one] { $n } Flasche
   *[other] { $n } Flaschen
} für Aufstockungen im Wasser, { $volume }

plan-clean-work = die Aussicht gilt für saubere Arbeit: ein Ausreißer durch Verunreinigung ist nicht darin
plan-none-decides = kein angebotener Entwurf entscheidet mit einer Aussicht von 80 %: mehr Flaschen, größere Füllungen oder weniger Minuten anbieten
plan-laboratory-assumed = laboratory_pg nicht gegeben: { $assumed } angenommen (pg, eine Flasche im Labor)
plan-scatter-assumed = relative_sd nicht gegeben: { $assumed } angenommen (Streuung einer Probenflasche, ein Anteil)
plan-spike-assumed = spike_sd nicht gegeben: { $assumed } angenommen (Streuung einer Wiederfindung, ein Anteil)
plan-recovery-assumed = recovery_u nicht gegeben: { $assumed } angenommen (u der Wiederfindung ohne Aufstockung, ein Anteil)

plan-blanks-of-run = { $blanks ->
    [one] { $blanks } Feldblindprobe
   *[other] { $blanks } Feldblindproben
} des Messlaufs { $run }
plan-between-blanks = Streuung zwischen Blindproben ({ $blanks }), ohne den Teil des Labors
plan-dof-of-blanks = Freiheitsgrade ({ $blanks })
plan-laboratory-of-blanks = das u des Labors für eine der Blindproben ({ $blanks })
plan-scatter-of-pairs = Streuung einer Flasche, aus Paaren von Parallelproben
plan-scatter-of-spikes = Streuung der Wiederfindungen
plan-u-of-spikes = u der Wiederfindung nach den bisherigen Aufstockungen
plan-taken = { $key } { $value }: { $why }
plan-taken-mass = { $key } { $value }: pg, { $why }
plan-taken-mass-alone = { $key } { $value }: pg, { $why }
plan-blank = Blindprobe { $mean }: Mittel von { $blanks }; davon { $air } durch Luft und Hände, solange offen (Feld- weniger Transportblindproben)

plan-cheapest-accepted = Der günstigste, dessen Flaschen angenommen werden können: entscheidet mit { $chance } Aussicht, weist { $limit } nach.
plan-reference-materials = { $n ->
    [one] { $n } Gefäß eines Referenzmaterials
   *[other] { $n } Gefäße eines Referenzmaterials
}
plan-drift-checks = { $n ->
    [one] { $n } Driftkontrolle
   *[other] { $n } Driftkontrollen
}
plan-second-sources = { $n ->
    [one] { $n } Standard aus zweiter Quelle
   *[other] { $n } Standards aus zweiter Quelle
}
plan-pack-spikes-at = { $well }: { $n ->
    [one] { $n } Flasche
   *[other] { $n } Flaschen
} für Aufstockungen im Wasser, { $volume }
plan-pack-vials = für den Messlauf: { $vials }
plan-need-decides = { $check } entscheidet: mindestens { $least }
plan-need-warns = { $check } warnt: mindestens { $least }
plan-of-each-well = { $bottles } je Brunnen
plan-spikes-in-each-water = { $n ->
    [one] { $n } Aufstockung
   *[other] { $n } Aufstockungen
} in jedem Wasser
plan-met-by-care = auch entscheidend, und eher durch Sorgfalt als durch Zahlen erfüllt: { $checks }
plan-spikes-too-wide = eine Wiederfindung streut um { $sd }: über { $most } lässt keine Zahl von Aufstockungen die Wiederfindung entscheiden
plan-vial-not-priced = der Preis eines Gefäßes im Messlauf ist nicht gegeben: 0 angenommen
