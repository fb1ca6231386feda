verdict-no-limits = Keine Blindproben sagen, was ohne Metall im Wasser gefunden würde.
verdict-detected = Der Nettowert, { $net }, liegt über der Erkennungsgrenze { $critical }: nachgewiesen (Nachweisgrenze { $detection }).
verdict-not-detected = Der Nettowert, { $net }, liegt nicht über der Erkennungsgrenze { $critical }: nicht nachgewiesen, höchstens { $bound } (Nachweisgrenze { $detection }).
verdict-pipe-by-flow = Nach Flaschen bei verschiedener Schüttung gab das Rohr an diese Flasche { $pipe } { $element } ab (95-%-Intervall { $low } bis { $high }).
verdict-no-pipe-by-flow = Flaschen bei verschiedener Schüttung zeigen kein { $element } des Rohrs: höchstens { $high } in dieser.
verdict-no-lot-blank = Keine Flaschenblindprobe der Charge { $lot } wurde auf { $element } gemessen.
verdict-lot-blanks = { $blanks ->
    [one] Die { $blanks } Flaschenblindprobe der Charge { $lot } enthält höchstens { $highest } { $element }, { $share } des Gefundenen; das Programm erlaubt { $limit }.
   *[other] Die { $blanks } Flaschenblindproben der Charge { $lot } enthalten höchstens { $highest } { $element }, { $share } des Gefundenen; das Programm erlaubt { $limit }.
}
verdict-no-spike = In diesem Wasser wurde keine Aufstockung mit { $element } gemacht; eine niedrige Zahl kann verlorenes Metall sein.
verdict-no-spike-here = In diesem Wasser wurde keine Aufstockung mit { $element } gemacht (in einem anderen Wasser des Messlaufs waren es { $recovery } (k = 2)); eine niedrige Zahl kann verlorenes Metall sein.
verdict-recovery-within = { $spikes ->
    [one] { $spikes } Aufstockung mit { $element } in diesem Wasser, in der Höhe seines Gehalts: Wiederfindung { $recovery } (k = 2), innerhalb der { $low } bis { $high } des Programms.
   *[other] { $spikes } Aufstockungen mit { $element } in diesem Wasser, in der Höhe seines Gehalts: Wiederfindung { $recovery } (k = 2), innerhalb der { $low } bis { $high } des Programms.
}
verdict-recovery-outside = { $spikes ->
    [one] { $spikes } Aufstockung mit { $element } in diesem Wasser, in der Höhe seines Gehalts: Wiederfindung { $recovery } (k = 2), außerhalb der { $low } bis { $high } des Programms.
   *[other] { $spikes } Aufstockungen mit { $element } in diesem Wasser, in der Höhe seines Gehalts: Wiederfindung { $recovery } (k = 2), außerhalb der { $low } bis { $high } des Programms.
}
verdict-recovery-uncertain = { $spikes ->
    [one] { $spikes } Aufstockung mit { $element } in diesem Wasser, in der Höhe seines Gehalts: Wiederfindung { $recovery } (k = 2), zu unsicher, um das an den { $low } bis { $high } des Programms zu messen.
   *[other] { $spikes } Aufstockungen mit { $element } in diesem Wasser, in der Höhe seines Gehalts: Wiederfindung { $recovery } (k = 2), zu unsicher, um das an den { $low } bis { $high } des Programms zu messen.
}
verdict-no-second-bottle = Keine zweite Flasche von { $water } steht neben { $bottle }.
verdict-no-second-bottle-here = Keine zweite Flasche dieses Wassers steht neben { $bottle }.
verdict-pair-within = { $first } und { $second } unterscheiden sich um { $difference } { $element }, innerhalb der { $allowed }, die ihre Unsicherheiten zulassen.
verdict-pair-more = { $first } und { $second } unterscheiden sich um { $difference } { $element }, mehr als die { $allowed }, die ihre Unsicherheiten zulassen.
verdict-pair-far = { $first } und { $second } unterscheiden sich um { $difference } { $element }, weit mehr als die { $allowed }, die ihre Unsicherheiten zulassen.
verdict-taken-out = Aus den Belegen genommen: { $why }; der Wert ist der letzte der Aufzeichnung.
verdict-forecast-lacks = { $finding } Vorher war nichts bekannt über: { $stages }.
verdict-stage-clean-air = saubere Luft
verdict-stage-bottle = Flasche
verdict-stage-cool-box = Kühlbox
verdict-stage-lab-run = Laborlauf
verdict-training = { $analyte }, { $blanks }: { $finding }
verdict-series = { $finding } ({ $results ->
    [one] { $results } Ergebnis der Reihe beruht
   *[other] { $results } Ergebnisse der Reihe beruhen
} auf diesen Belegen.)
verdict-spikes-not-worked-out = Aufstockungen mit { $analyte } sind verzeichnet, ihre Wiederfindung wurde aber nicht aus berichteten Werten errechnet.
verdict-no-spike-reported = Keine Aufstockung mit { $analyte } in der Höhe des Gehalts ist verzeichnet; eine niedrige Zahl kann verlorenes Metall sein.
verdict-estimate = Das Labor selbst nennt den Wert eine Schätzung.
verdict-no-blank = Keine Blindprobe für { $analyte }, { $fraction ->
    [unfiltered] unfiltriert
    [filtered] filtriert
   *[other] { $fraction }
}, ist verzeichnet.
verdict-blanks-limit = { $analyte }, { $fraction ->
    [unfiltered] unfiltriert
    [filtered] filtriert
   *[other] { $fraction }
}, wurde in { $found } von { $blanks ->
    [one] { $blanks } Blindprobe
   *[other] { $blanks } Blindproben
} gefunden; mit 95 % Vertrauen enthält höchstens ein Zehntel ebenso behandelter Proben mehr als { $limit } von anderswo.
verdict-blanks-few = { $analyte }, { $fraction ->
    [unfiltered] unfiltriert
    [filtered] filtriert
   *[other] { $fraction }
}, wurde in { $found } von { $blanks ->
    [one] { $blanks } Blindprobe
   *[other] { $blanks } Blindproben
} gefunden; eine Grenze für neun von zehn Proben lässt sich mit so wenigen nicht angeben: Es braucht { $needed }.
verdict-no-replicates = Kein Satz von Wiederholungen von { $analyte }, { $fraction ->
    [unfiltered] unfiltriert
    [filtered] filtriert
   *[other] { $fraction }
}, mit zwei Werten ist verzeichnet.
verdict-replicates-relative = { $pairs ->
    [one] { $pairs } Paar von Wiederholungen ergibt
   *[other] { $pairs } Paare von Wiederholungen ergeben
} eine relative Standardabweichung von { $sd } für einen Wert von { $analyte }, { $fraction ->
    [unfiltered] unfiltriert
    [filtered] filtriert
   *[other] { $fraction }
}: was der Bericht selbst nicht angibt.
verdict-replicates-plain = { $pairs ->
    [one] { $pairs } Paar von Wiederholungen ergibt
   *[other] { $pairs } Paare von Wiederholungen ergeben
} eine Standardabweichung von { $sd } für einen Wert von { $analyte }, { $fraction ->
    [unfiltered] unfiltriert
    [filtered] filtriert
   *[other] { $fraction }
}: was der Bericht selbst nicht angibt.
verdict-uncertainty-stated = Das Labor gibt die Unsicherheit seines Werts an.
verdict-uncertainty-not-stated = Das Labor gibt keine Unsicherheit seines Werts an.
verdict-uncertainty-censored = Ein zensierter Wert trägt keine Unsicherheit.
verdict-limit-of-kind = Nicht nachgewiesen unter einer Grenze der Art „{ $kind }“.
verdict-limit-without-kind = Nicht nachgewiesen unter einer angegebenen Grenze; welcher Art die Grenze ist, sagt der Bericht nicht.
verdict-limit-not-stated = Nicht nachgewiesen, aber der Bericht sagt nicht, unter welchem Wert.
verdict-field-blanks = Feldblindproben
verdict-trip-blanks = Transportblindproben
verdict-equipment-blanks = Geräteblindproben
verdict-bottle-blanks = Flaschenblindproben
verdict-other-blanks = Blindproben der Art „{ $kind }“
verdict-flow-not-known = Die Schüttung ist nicht bekannt: { $why }.
verdict-contact-not-known = Die Kontaktzeit ist nicht bekannt: { $why }.
verdict-counts-unusable = Die Zählungen über der offenen Flasche sind nicht zu gebrauchen: { $why }.
verdict-not-steady = { $quantity }: vor den Flaschen nicht konstant; die letzten Messwerte liegen bis zu { $spread } neben ihrem Mittel von { $mean }; die Regel ist { $rule }.
verdict-not-steady-either = { $finding } Ebenfalls nicht konstant: { $others }.
verdict-steady-few = Zu wenige Messwerte, um zu sagen, ob konstant: { $quantities }.
verdict-steady-few-because = Zu wenige Messwerte, um zu sagen, ob konstant: { $quantities } ({ $why }).
verdict-value-untold = Der Wert lässt sich nicht sagen: { $why }.
verdict-underivable = Aus den Belegen genommen: nicht mehr herzuleiten ({ $why }); der Wert ist der letzte der Aufzeichnung.
verdict-group-within = { $bottles } enthalten { $lowest } bis { $highest } { $element }: Sie stimmen im Rahmen ihrer Unsicherheiten überein (Wahrscheinlichkeit einer so großen Streuung: { $chance }).
verdict-group-more = { $bottles } enthalten { $lowest } bis { $highest } { $element }, mehr Streuung, als ihre Unsicherheiten zulassen (Wahrscheinlichkeit einer so großen Streuung: { $chance }); welche Flasche abweicht, lässt sich nicht sagen.
verdict-group-more-odd = { $bottles } enthalten { $lowest } bis { $highest } { $element }, mehr Streuung, als ihre Unsicherheiten zulassen (Wahrscheinlichkeit einer so großen Streuung: { $chance }); { $odd } weicht ab: Ohne sie stimmen die anderen überein.
verdict-group-odd = { $bottles } weichen voneinander ab: { $lowest } bis { $highest } { $element }, weit mehr, als ihre Unsicherheiten zulassen. { $odd } ist die abweichende Flasche: Ohne sie stimmen die anderen überein. Bis eine Person die Ursache festhält, gilt keine von ihnen.
verdict-group-far = { $bottles } weichen voneinander ab: { $lowest } bis { $highest } { $element }, weit mehr, als ihre Unsicherheiten zulassen. Welche Flasche falsch liegt, lässt sich nicht sagen; keine von ihnen gilt.
verdict-odd-signed = { $finding } Für diese Flasche steht { $person } ein: { $why }
verdict-second-taken-out = Eine Flasche allein: { $bottle }, { $value }. Daneben wurde aus den Belegen genommen: { $taken }. Ob zwei Flaschen übereinstimmen, ist nicht bekannt.
verdict-beside-taken-out = { $finding } Zuvor aus den Belegen genommen: { $taken }.
verdict-out-with-value = { $bottle }, { $value }, Grund: „{ $why }“
verdict-out = { $bottle }, Grund: „{ $why }“
verdict-with-note = { $finding } Feldnotiz zu { $bottle }: „{ $note }“.
verdict-particles = { $element }: unfiltriert { $unfiltered }, { $fraction } { $filtered }; die Partikel enthalten { $particles }.
verdict-no-particles = { $element }: unfiltriert { $unfiltered }, { $fraction } { $filtered }; die beiden unterscheiden sich nicht, die Partikel enthalten höchstens { $most }.
verdict-filtered-above = { $element }: unfiltriert { $unfiltered }, { $fraction } { $filtered }; hinter dem Filter ist mehr, um { $less }: Filter oder Flasche brachten Metall ein, oder die Wässer unterscheiden sich.
verdict-put-back-stands = Mit { $taken } wieder in den Belegen: { $with }; wie es steht: { $now }. Die Antwort hängt nicht an dem, was herausgenommen wurde.
verdict-put-back-hangs = Mit { $taken } wieder in den Belegen: { $with }; wie es steht: { $now }. Die Antwort hängt an dem, was herausgenommen wurde.
verdict-number-and-verdict = { $amount }, { $verdict }
verdict-bound-and-verdict = höchstens { $bound }, { $verdict }
verdict-no-number-and-verdict = { $values } (die Flaschen weichen voneinander ab), { $verdict }

verdict-not-decided = Der Nettowert, { $net }, liegt über der Erkennungsgrenze { $critical }, aber dieses Gefäß streut so stark, dass es für einen Nachweis { $needed } braucht: nicht entschieden.
verdict-vial-scatter = Die Wiederholungen von „{ $vial }“ streuen { $times }-mal so stark, wie die anderen Gefäße erwarten lassen: Nach seiner eigenen Streuung braucht es für einen Nachweis einen Nettowert von { $needed }. Noch einmal gemessen, lässt es sich entscheiden.
verdict-few-blanks = Der Erweiterungsfaktor ist { $k }, weil wenige Blindproben sagen, wie weit Blindproben auseinanderliegen ({ $dof } Freiheitsgrade); mit einer mehr wäre er { $then }.
verdict-few-checks = Der Erweiterungsfaktor ist { $k }, weil wenige Driftkontrollen sagen, wie weit Gefäße einer Lösung auseinanderliegen ({ $dof } Freiheitsgrade); mit einer mehr wäre er { $then }.
verdict-few-replicates = Der Erweiterungsfaktor ist { $k }, weil wenige Wiederholungen die Streuung eines Gefäßes tragen, das allein steht ({ $dof } Freiheitsgrade); mit einer mehr wäre er { $then }.
verdict-few-spikes = Der Erweiterungsfaktor ist { $k }, weil wenige Aufstockungen die Wiederfindung tragen ({ $dof } Freiheitsgrade); mit einer mehr wäre er { $then }.
verdict-few-values = Der Erweiterungsfaktor ist { $k }, weil ein Teil von u auf wenigen Werten beruht ({ $dof } Freiheitsgrade); mit einem mehr wäre er { $then }.
