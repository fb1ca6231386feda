bottle-training-matches = Die Übungsleerproben von { $person }, Mittel { $mean }, gleichen denen der Gruppe (bis { $limit } bei { $blanks ->
    [one] { $blanks } Leerprobe
   *[other] { $blanks } Leerproben
}).
bottle-training-above = Die Übungsleerproben von { $person }, Mittel { $mean }, liegen über dem, was die Streuung der Gruppe zulässt, { $limit } bei { $blanks ->
    [one] { $blanks } Leerprobe
   *[other] { $blanks } Leerproben
}: mehr Übung vor dem Feld.
bottle-blanks-rise = Die { $kind ->
    [field-blank] Feldleerproben
    [trip-blank] Reiseleerproben
    [equipment-blank] Geräteleerproben
    [bottle-blank] Flaschenleerproben
    [procedural-blank] Verfahrensleerproben
   *[other] Leerproben ({ $kind })
} von { $analyte } steigen um { $slope } im Jahr (95-%-Intervall { $low } bis { $high }): vor der nächsten Probenahme nachsehen, was sich änderte: Flaschen, Säure, Kühlbox.
bottle-blanks-level = Die { $kind ->
    [field-blank] Feldleerproben
    [trip-blank] Reiseleerproben
    [equipment-blank] Geräteleerproben
    [bottle-blank] Flaschenleerproben
    [procedural-blank] Verfahrensleerproben
   *[other] Leerproben ({ $kind })
} von { $analyte } steigen nicht über ihre Streuung hinaus: { $slope } im Jahr (95-%-Intervall { $low } bis { $high }).
bottle-lot = Los { $lot }: { $limit }
bottle-lot-may-go = Mit { $confidence } Vertrauen bringen { $content } der Flaschen dieses Loses weniger als { $upper }, nach { $blanks ->
    [one] { $blanks } Leerprobe
   *[other] { $blanks } Leerproben
}; das Ziel ist { $target }: Das Los darf hinaus.
bottle-lot-refused = Mit { $confidence } Vertrauen bringen { $content } der Flaschen dieses Loses weniger als { $upper }, nach { $blanks ->
    [one] { $blanks } Leerprobe
   *[other] { $blanks } Leerproben
}; das Ziel ist { $target }, und dieses Perzentil liegt über { $lower }: das Los noch einmal waschen.
bottle-lot-undecided = Mit { $confidence } Vertrauen bringen { $content } der Flaschen dieses Loses weniger als { $upper }, nach { $blanks ->
    [one] { $blanks } Leerprobe
   *[other] { $blanks } Leerproben
}; das Ziel ist { $target }: nicht entschieden; mehr Leerproben engen die Grenze ein.
bottle-blank-above-forecast = Die Feldleerprobe, { $blank }, liegt über der Vorhersage, { $low } bis { $high }: Die Stationen der Vorhersage sind nicht die Ursache, nach einer anderen Quelle suchen.
bottle-blank-below-forecast = Die Feldleerprobe, { $blank }, liegt unter der Vorhersage, { $low } bis { $high }: Die Vorhersage ist zu vorsichtig.
bottle-blank-as-forecast = Die Feldleerprobe, { $blank }, stimmt mit der Vorhersage, { $low } bis { $high }, überein.
bottle-pattern-fits = Der Überschuss an { $metals } passt zum Muster { $sources } (p { $p }).
bottle-pattern-fits-none = Der Überschuss an { $metals } passt zu keinem der Muster gut; am nächsten liegt { $sources } (p { $p }).
bottle-pattern-without-source = Kein Muster hat Teil am Überschuss an { $metals }.
bottle-source = { $source ->
    [galvanised-pipe] verzinktes Rohr
    [stainless-steel-304] Edelstahl 304
    [stainless-steel-316] Edelstahl 316
    [brass] Messing
    [rubber-gloves] Gummihandschuhe
   *[other] { $source }
}
bottle-source-with = { $first } mit { $other }
bottle-pattern-of-blank = Leerprobe { $bottle } über den anderen ihrer Art: { $pattern }
bottle-pattern-of-pipe = Das Rohr von { $well } nach seiner Schüttungsreihe, { $trip }: { $pattern }
bottle-no-pattern-of-blank = Leerprobe { $bottle } über den anderen ihrer Art: { $why }.
bottle-no-pattern-of-pipe = Das Rohr von { $well } nach seiner Schüttungsreihe, { $trip }: { $why }.
bottle-training-not-judged = { $analyte }, { $blanks } von { $person }: { $why }.
bottle-lot-not-judged = Los { $lot } ist für { $analyte } nicht beurteilt: { $why }.

bottle-lot-few-blanks = Leerproben des Loses: { $have } gegeben, mindestens 3 nötig; drei Flaschen oder mehr jedes Loses mit dem reinsten Wasser und der reinsten Säure füllen
bottle-lot-no-target = Ziele für { $analyte }: 0 gegeben, mindestens 1 nötig; in lot_target sagen, was eine Flasche bringen darf
bottle-lot-target = Ziel des Loses: gefunden { $target }, erwartet mehr als 0 pg
bottle-training-few = Leerproben der Gruppe und der übenden Person: { $have } gegeben, mindestens 2 nötig; zwei der Gruppe und eine der übenden Person mindestens
bottle-excess = Überschuss an { $metal }: gefunden { $excess } mit u { $u }, erwartet eine Zahl mit u über 0
