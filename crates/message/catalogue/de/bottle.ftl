bottle-training-matches = Die Übungsblindproben von { $person }, Mittel { $mean }, gleichen denen der Gruppe (bis { $limit } bei { $blanks ->
    [one] { $blanks } Blindprobe
   *[other] { $blanks } Blindproben
}).
bottle-training-above = Die Übungsblindproben von { $person }, Mittel { $mean }, liegen über dem, was die Streuung der Gruppe zulässt, { $limit } bei { $blanks ->
    [one] { $blanks } Blindprobe
   *[other] { $blanks } Blindproben
}: mehr Übung vor dem Feld.
bottle-blanks-rise = Die { $kind ->
    [field-blank] Feldblindproben
    [trip-blank] Transportblindproben
    [equipment-blank] Geräteblindproben
    [bottle-blank] Flaschenblindproben
    [procedural-blank] Verfahrensblindproben
   *[other] Blindproben ({ $kind })
} von { $analyte } steigen um { $slope } im Jahr (95-%-Intervall { $low } bis { $high }): vor der nächsten Probenahme nachsehen, was sich änderte: Flaschen, Säure, Kühlbox.
bottle-blanks-level = Die { $kind ->
    [field-blank] Feldblindproben
    [trip-blank] Transportblindproben
    [equipment-blank] Geräteblindproben
    [bottle-blank] Flaschenblindproben
    [procedural-blank] Verfahrensblindproben
   *[other] Blindproben ({ $kind })
} von { $analyte } steigen nicht über ihre Streuung hinaus: { $slope } im Jahr (95-%-Intervall { $low } bis { $high }).
bottle-lot = Charge { $lot }: { $limit }
bottle-lot-may-go = Mit { $confidence } Vertrauen bringen { $content } der Flaschen dieser Charge weniger als { $upper }, nach { $blanks ->
    [one] { $blanks } Blindprobe
   *[other] { $blanks } Blindproben
}; das Ziel ist { $target }: Die Charge ist freigegeben.
bottle-lot-refused = Mit { $confidence } Vertrauen bringen { $content } der Flaschen dieser Charge weniger als { $upper }, nach { $blanks ->
    [one] { $blanks } Blindprobe
   *[other] { $blanks } Blindproben
}; das Ziel ist { $target }, und dieses Perzentil liegt über { $lower }: die Charge noch einmal waschen.
bottle-lot-undecided = Mit { $confidence } Vertrauen bringen { $content } der Flaschen dieser Charge weniger als { $upper }, nach { $blanks ->
    [one] { $blanks } Blindprobe
   *[other] { $blanks } Blindproben
}; das Ziel ist { $target }: nicht entschieden; mehr Blindproben engen die Grenze ein.
bottle-blank-above-forecast = Die Feldblindprobe, { $blank }, liegt über der Vorhersage, { $low } bis { $high }: Die Stationen der Vorhersage sind nicht die Ursache, nach einer anderen Quelle suchen.
bottle-blank-below-forecast = Die Feldblindprobe, { $blank }, liegt unter der Vorhersage, { $low } bis { $high }: Die Vorhersage ist zu vorsichtig.
bottle-blank-as-forecast = Die Feldblindprobe, { $blank }, stimmt mit der Vorhersage, { $low } bis { $high }, überein.
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
bottle-pattern-of-blank = Blindprobe { $bottle } über den anderen ihrer Art: { $pattern }
bottle-pattern-of-pipe = Das Rohr von { $well } nach seiner Schüttungsreihe, { $trip }: { $pattern }
bottle-no-pattern-of-blank = Blindprobe { $bottle } über den anderen ihrer Art: { $why }.
bottle-no-pattern-of-pipe = Das Rohr von { $well } nach seiner Schüttungsreihe, { $trip }: { $why }.
bottle-training-not-judged = { $analyte }, { $blanks } von { $person }: { $why }.
bottle-lot-not-judged = Charge { $lot } ist für { $analyte } nicht beurteilt: { $why }.

bottle-lot-few-blanks = Blindproben der Charge: { $have } gegeben, mindestens 3 nötig; drei Flaschen oder mehr jeder Charge mit dem reinsten Wasser und der reinsten Säure füllen
bottle-lot-no-target = Ziele für { $analyte }: 0 gegeben, mindestens 1 nötig; in lot_target sagen, was eine Flasche bringen darf
bottle-lot-target = Ziel der Charge: gefunden { $target }, erwartet mehr als 0 pg
bottle-training-few = Blindproben der Gruppe und der übenden Person: { $have } gegeben, mindestens 2 nötig; zwei der Gruppe und eine der übenden Person mindestens
bottle-excess = Überschuss an { $metal }: gefunden { $excess } mit u { $u }, erwartet eine Zahl mit u über 0
