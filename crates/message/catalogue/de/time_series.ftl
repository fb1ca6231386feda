time_series-fraction = { $fraction ->
    [unfiltered] unfiltriert
    [filtered] filtriert
   *[other] { $fraction }
}
time_series-analyte = { $what }, { $fraction }
time_series-short = { $results ->
    [one] { $results } datiertes Ergebnis
   *[other] { $results } datierte Ergebnisse
}: weniger als die { $least }, ab denen Kennwerte und ein Trend berechnet werden.
time_series-left-out = Weggelassen: { $reasons }.
time_series-without-date = { $results } ohne Datum
time_series-without-limit = { $results } nicht nachgewiesen ohne angegebene Grenze
time_series-above-range = { $results } über dem Messbereich
time_series-other-unit = { $results } in einer Einheit anderer Art
time_series-other-isotope = { $results } von einem anderen Isotop derselben Flasche
time_series-taken-out = { $results } von einer Person herausgenommen
time_series-section = Die Aufzeichnung
time_series-entered = { $results ->
    [one] { $results } datiertes Ergebnis ergibt
   *[other] { $results } datierte Ergebnisse ergeben
} { $series ->
    [one] { $series } Reihe
   *[other] { $series } Reihen
} je eines Stoffs und einer Fraktion in einem Brunnen.
time_series-told = { $told ->
    [one] { $told } davon hat { $least ->
            [one] { $least } Wert oder mehr
           *[other] { $least } Werte oder mehr
        } und steht hier
   *[other] { $told } davon haben { $least ->
            [one] { $least } Wert oder mehr
           *[other] { $least } Werte oder mehr
        } und stehen hier
}; { $short ->
    [one] { $short } ist kürzer und wird nicht berechnet
   *[other] { $short } sind kürzer und werden nicht berechnet
}.
time_series-not-entered = { $results ->
    [one] { $results } Ergebnis konnte nicht eingehen
   *[other] { $results } Ergebnisse konnten nicht eingehen
}: { $reasons }.
time_series-with-rejected = Urteile stehen neben den Reihen und ändern nichts an ihnen: { $series ->
    [one] { $series } davon enthält
   *[other] { $series } davon enthalten
} Ergebnisse, die verworfen sind.
time_series-counts = Von { $series ->
    [one] { $series } Reihe
   *[other] { $series } Reihen
} mit { $least ->
    [one] { $least } Wert oder mehr
   *[other] { $least } Werten oder mehr
} { $tested ->
    [one] hat { $tested }
   *[other] haben { $tested }
} einen Trendtest: { $up ->
    [one] { $up } steigt
   *[other] { $up } steigen
} und { $down ->
    [one] { $down } fällt
   *[other] { $down } fallen
} (p < { $p }), in { $level } ist keine Änderung zu sehen; { $untested ->
    [one] { $untested } hat keinen Trend, mit Grund
   *[other] { $untested } haben keinen Trend, jede mit ihrem Grund
}.
time_series-vanish = In { $vanish } der { $changed }, die sich ändern, ist die Änderung nicht mehr da, sobald die Stufen bei Wechseln des Verfahrens oder Labors herausgenommen sind.
time_series-by-chance = Von { $tests ->
    [one] { $tests } Test
   *[other] { $tests } Tests
} zugleich kommen einige allein durch Zufall unter { $p } heraus: Wenn höchstens eine von zwanzig genannten Änderungen ein falscher Alarm sein darf, { $left ->
    [one] bleibt
   *[other] bleiben
} { $left } von { $changed }.
time_series-choice = An die Stelle eines nicht nachgewiesenen Werts wird nichts gesetzt. Das Mittel ist nach dem ersten der Verfahren Product-Limit-Schätzung, Regression auf Ordnungsstatistiken und lognormale Likelihood, das eine Simulation für so viele Werte und diesen Anteil von nicht Nachgewiesenem geeignet fand (ein 95-%-Intervall, das in 90 % der simulierten Reihen oder mehr das wahre Mittel enthielt) und dessen Gestalt die Daten nicht widersprechen; wo keines geeignet ist, wird keines angegeben. Der Median ist nach der Product-Limit-Schätzung, die keine Gestalt voraussetzt. Der Trend ist der Mann-Kendall-Test mit nicht Nachgewiesenem und die Steigung nach Akritas, Theil und Sen, weil beide weder eine Gestalt noch einen Wert für nicht Nachgewiesenes brauchen. Nachbarn in der Zeit, die einander gleichen, täuschen Änderungen vor: Ab 20 Werten berücksichtigen p und Intervall die Korrelation, die die Residuen zeigen, bei 12 bis 19 stehen sie für die ungünstigste von drei angenommenen, bei weniger Werten lässt sich über sie nichts sagen, was neben der Reihe steht. Wo Verfahren oder Labor wechselten, steht der Test neben einem, aus dem die Stufen herausgenommen sind; ein Ergebnis, das sein Verfahren nicht angibt, ist kein Wechsel.
time_series-method-name = Reihen mit nicht Nachgewiesenem
time_series-method = Kennwerte nach Product-Limit-Schätzung, Regression auf Ordnungsstatistiken und Likelihood; Mann-Kendall-Test mit Bindungen und nicht Nachgewiesenem; die Steigung, bei der die Statistik der Residuen null ist, mit dem Intervall der Steigungen, die der Test nicht verwirft; die Varianz der Statistiken um die zeitliche Korrelation der Residuen erweitert; Stufen bei Wechseln des Verfahrens nach einem Rangsummentest; Kontrollkarten der Blindproben nach Vorhersagegrenzen ihrer ersten Jahre. Wie weit jedem zu trauen ist, wurde simuliert und steht neben den Zahlen.
time_series-table-title = Änderung über die Jahre in { $series ->
    [one] { $series } Reihe
   *[other] { $series } Reihen
}
time_series-table-below = Die Zahlen stehen in der Tabelle darunter.
time_series-table-under = Brunnen nach unten, Stoffe nach rechts; ein Zeichen, wo es { $least ->
    [one] { $least } Wert oder mehr
   *[other] { $least } Werte oder mehr
} gibt. Test bei p < { $p }.
time_series-table-caption = Jeder Brunnen und Stoff mit genügend Werten: was der Trendtest ergab.
time_series-sheet-title = Die Reihen, die stärkste Änderung zuerst
time_series-sheet-title-part = Die Reihen, die stärkste Änderung zuerst, { $first } bis { $last } von { $all }
time_series-sheet-under = Alle von { $from } bis { $to }; jede auf einer eigenen logarithmischen Achse; ein Punkt ist ein Wert, ein Balken mit Querstrich ein nicht nachgewiesener bis zu seiner Grenze.
time_series-sheet-caption = Reihen nach der Stärke ihrer Änderung geordnet (p des Trendtests).
time_series-sheet-caption-part = Reihen nach der Stärke ihrer Änderung geordnet (p des Trendtests), { $first } bis { $last } von { $all }.
time_series-strongest = { $series ->
    [one] Die Reihe mit der stärksten Änderung
   *[other] Die { $series } Reihen mit der stärksten Änderung
}
time_series-title = { $what } in { $well }, { $fraction }
time_series-caption = { $what } in { $well } über die Jahre.
time_series-no-blanks = Keine Blindprobe dieses Stoffs und dieser Fraktion ist verzeichnet: Eine steigende Blindprobe sähe aus wie ein steigendes Metall.
time_series-practice = { $date }: { $from } zu { $to }
time_series-practice-not-stated = Verfahren nicht angegeben
time_series-band = Trend; Band: die Steigungen, die der Test nicht verwirft, um die Mitte gedreht
time_series-blank = { $kind ->
    [field-blank] Feldblindprobe
    [trip-blank] Transportblindprobe
    [equipment-blank] Geräteblindprobe
    [bottle-blank] Flaschenblindprobe
   *[other] { $kind }
}
time_series-blanks = { $kind ->
    [field-blank] Feldblindproben
    [trip-blank] Transportblindproben
    [equipment-blank] Geräteblindproben
    [bottle-blank] Flaschenblindproben
   *[other] { $kind }
}
time_series-blanks-heading = Blindproben über die Jahre
time_series-blanks-first = Eine steigende Blindprobe sieht aus wie ein steigendes Metall, darum stehen die Karten der Blindproben voran. Ihr erstes Drittel, mindestens fünf, setzt die Grenzen für die übrigen.
time_series-blanks-caption = Blindproben gegen die Grenzen ihrer ersten Jahre
time_series-n-below = n (nicht nachgewiesen)
time_series-baseline = Grundreihe
time_series-action-limit = Eingriffsgrenze
time_series-above-it = darüber
time_series-p-in-time = p in der Zeit
time_series-stands-out = fällt auf
time_series-rise = steigend
time_series-fall = fallend
time_series-action = Eingriff
time_series-run = Folge
time_series-nothing = nichts
time_series-blanks-note = Grundreihe: wie viele der ersten die Grenzen setzen. Fällt auf: { time_series-rise }, { time_series-fall }: mit den Jahren, p < 0,05; { time_series-action }: über der Eingriffsgrenze; { time_series-run }: acht hintereinander über dem Median der Grundreihe; { word-cannot-tell }: nicht Nachgewiesenes, dessen eigene Grenze über der Eingriffsgrenze liegt.
time_series-blanks-title = { $blanks } über die Jahre: { $analyte }
time_series-limits = Grenzen: { $basis }.
time_series-alike = ähnlich
time_series-alike-means = { time_series-alike }: Nachbarn in der Zeit gleichen einander; p und Intervall berücksichtigen es
time_series-few = wenige
time_series-few-means = { time_series-few }: zu wenige Werte, um eine Korrelation zu erkennen: p ist das größte für angenommene oder gilt, unter 12 Werten, nur ohne eine solche
time_series-many = viele Tests
time_series-many-means = { time_series-many }: Unter so vielen Tests kann mehr als eine von zwanzig gleich starken Änderungen ein falscher Alarm sein
time_series-limits-moved = Grenzen
time_series-limits-moved-means = { time_series-limits-moved }: Die Grenzen verschoben sich mit den Jahren, was allein den Test verschieben kann
time_series-step = Stufe
time_series-step-means = { time_series-step }: Das Niveau ist vor und nach einem Wechsel des Verfahrens oder Labors verschieden
time_series-coverage = Überdeckung
time_series-coverage-means = { time_series-coverage }: In der Simulation enthielt das Intervall der Steigung bei so vielen Werten und so viel nicht Nachgewiesenem zu selten die wahre oder gab zu oft keine Antwort
time_series-open = offen
time_series-open-means = { time_series-open }: Das Intervall der Steigung hat auf einer oder beiden Seiten keine Grenze
time_series-no-line = keine Gerade
time_series-no-line-means = { time_series-no-line }: Das nicht Nachgewiesene lässt die Steigung offen
time_series-blanks-rise-means = { word-blanks }: Blindproben desselben Stoffs steigen mit den Jahren
time_series-next = { $before }; { $next }
time_series-beware-of-note = Vorsicht: { $meanings }.
time_series-interval = { $figure } ({ $low } bis { $high })
time_series-no-method-fit = kein Verfahren geeignet
time_series-summaries-caption = Jede Reihe: Werte, Median, Mittel
time_series-years = Jahre
time_series-median = Median
time_series-n-below-note = n (nicht nachgewiesen): Werte und, in Klammern, wie viele davon nicht nachgewiesen sind. Sonst in Klammern 95-%-Intervalle; ∞: nicht begrenzt.
time_series-median-note = Median nach der Product-Limit-Schätzung; < heißt, dass er unter dem niedrigsten bekannten Wert liegt. Mittel nach PL Product-Limit-Schätzung, OS Regression auf Ordnungsstatistiken, LL lognormaler Likelihood: das erste geeignete Verfahren.
time_series-trends-caption = Jede Reihe mit einem Trend, die stärkste Änderung zuerst
time_series-change-column = Änderung, % im Jahr
time_series-steps-out = ohne Stufen
time_series-beware-of = Vorsicht
time_series-trends-note = Änderung in Prozent im Jahr aus der Steigung der Logarithmen mit ihrem 95-%-Intervall; wo ein Wert null oder negativ ist, in der Einheit im Jahr; wo keine Änderung zu sehen ist, die Änderungen, die nicht ausgeschlossen sind. ▲ steigt, ▼ fällt bei p < 0,05; p und Intervall berücksichtigen die Korrelation der Nachbarn, wo sie sich erkennen oder annehmen lässt. Ohne Stufen: p, wenn die Stufen bei Wechseln des Verfahrens oder Labors herausgenommen sind.
time_series-no-trend-caption = Reihen ohne Trend, und warum
time_series-why-no-trend = warum es keinen Trend gibt
time_series-rises = steigt
time_series-falls = fällt
time_series-no-change-seen = keine Änderung zu sehen
time_series-trend-none = Es lässt sich kein Trend angeben.
time_series-course = { $values ->
    [one] { $values } Wert
   *[other] { $values } Werte
} von { $from } bis { $to }, davon { $below } nicht nachgewiesen: { $course } ({ $test })
time_series-test = { $tau }, p { $p }
time_series-test-serial = { $tau }, p { $p } mit der Korrelation der Nachbarn, { $plain }, als gäbe es keine
time_series-test-assumed = { $tau }, p bis zu { $p } für eine Korrelation der Nachbarn, die so wenige Werte nicht erkennen lassen, { $plain } ohne sie
time_series-test-untold = { $tau }, p { $p }, falls Nachbarn einander nicht gleichen, was so wenige Werte nicht erkennen lassen
time_series-trend-open = { $course }.
time_series-trend-not-fit = { $course }; so viele Werte und nicht Nachgewiesene taugen für keine Steigung, und es wird keine angegeben.
time_series-trend-within = { $course }; eine Änderung zwischen { $low } und { $high } { $unit } im Jahr ist nicht ausgeschlossen.
time_series-from-to = { $low } bis { $high }
time_series-trend-slope = { $course }, { $slope } { $unit } im Jahr ({ $low } bis { $high }).
time_series-trend-percent = { $course }, { $slope } { $unit } im Jahr ({ $low } bis { $high }), { $percent } % im Jahr.
time_series-trend-flat = { $course }, doch sind so viele Werte gleich, dass die mittlere Steigung 0 { $unit } im Jahr ist ({ $low } bis { $high }).
time_series-steps-out-stays = Ohne die Stufen { $stretches ->
    [one] zwischen dem einen Abschnitt
   *[other] zwischen den { $stretches } Abschnitten
} mit je einem Verfahren ist p { $p }: Die Änderung bleibt.
time_series-steps-out-vanishes = Ohne die Stufen { $stretches ->
    [one] zwischen dem einen Abschnitt
   *[other] zwischen den { $stretches } Abschnitten
} mit je einem Verfahren ist p { $p }: Die Änderung ist nicht mehr zu sehen, sie kann also eine des Verfahrens sein.
time_series-steps-out-turns = Ohne die Stufen { $stretches ->
    [one] zwischen dem einen Abschnitt
   *[other] zwischen den { $stretches } Abschnitten
} mit je einem Verfahren ist p { $p }, und die Reihe { $course }: Was über die Stufen hinweg zu sehen ist, ist eine Änderung des Verfahrens.
time_series-steps-out-none = Ohne die Stufen { $stretches ->
    [one] zwischen dem einen Abschnitt
   *[other] zwischen den { $stretches } Abschnitten
} mit je einem Verfahren ist p { $p }: Auch so ist keine Änderung zu sehen.
time_series-steps-out-appears = Ohne die Stufen { $stretches ->
    [one] zwischen dem einen Abschnitt
   *[other] zwischen den { $stretches } Abschnitten
} mit je einem Verfahren ist p { $p }, und die Reihe { $course }: Die Stufen verdecken es.
time_series-change-point = Nach einer Stufe an einem Tag eigener Wahl gefragt, legen die Daten sie zwischen { $before } und { $after } (p { $p }; ein Trend sieht aus wie eine Stufe und eine Stufe wie ein Trend).
time_series-median-mean = Median { $median } { $unit } nach der Product-Limit-Schätzung; Mittel { $mean } { $unit } { $method }.
time_series-median-mean-because = Median { $median } { $unit } nach der Product-Limit-Schätzung; Mittel { $mean } { $unit } { $method }, gewählt, denn { $fitness }.
time_series-median-alone = Median { $median } { $unit } nach der Product-Limit-Schätzung; kein Verfahren für das Mittel ist bei so vielen Werten und so viel nicht Nachgewiesenem geeignet.
time_series-all-years = Wo sich das Niveau ändert, ist ein Kennwert aller Jahre der Kennwert keines Jahres.
time_series-not-detected = nicht nachgewiesen: irgendwo bis zur Grenze
time_series-at-or-below-zero = bei oder unter null
time_series-method-changes = das Verfahren wechselt
time_series-mark = { $date }: { $reading } { $unit }
time_series-mark-rejected = { $date }: { $reading } { $unit }, verworfen
time_series-more-changes = und { $changes } weitere, als Linien gezeichnet
time_series-rises-by = +{ $percent } % im Jahr
time_series-falls-by = −{ $percent } % im Jahr
time_series-no-trend = kein Trend
time_series-open-mark = offen: nicht so, wenn die Stufen bei Wechseln des Verfahrens herausgenommen sind
time_series-sizes = weniger als 2, 2 bis 5, mehr als 5 % im Jahr
time_series-dash = kein Trend anzugeben
time_series-keeps-rules = hält die Regeln ein
time_series-breaks-rule = bricht eine Regel
time_series-beyond-three-sd = jenseits von 3 sd
time_series-centre = Mitte
time_series-two-sd = 2 sd
time_series-three-sd = 3 sd, und Grenzen des Mittels
time_series-first-points = { $points ->
    [one] der erste setzt Mitte und sd
   *[other] die ersten { $points } setzen Mitte und sd
}
time_series-moving-average = Gleitendes Mittel (EWMA) mit seinen Grenzen
