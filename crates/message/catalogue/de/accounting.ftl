accounting-aquifer = Grundwasserleiter
accounting-well-and-pipe = Brunnen und Rohr
accounting-air-and-hands = Luft und Hände
accounting-bottle-and-acid = Flasche und Säure
accounting-journey = Transport
accounting-laboratory = Labor
accounting-no-procedural-blanks = In diesem Messlauf wurden weniger als zwei Verfahrensblindproben gemessen; zwei würden das Labor von der Flasche unterscheiden.
accounting-no-bottle-blanks = In diesem Messlauf wurden weniger als zwei Flaschenblindproben der Charge gemessen; zwei würden die Flasche vom Transport unterscheiden.
accounting-no-trip-blanks = In diesem Messlauf wurden weniger als zwei Transportblindproben des Probenahmetags gemessen; zwei würden den Transport von Luft und Händen unterscheiden.
accounting-no-field-blanks = In diesem Messlauf wurden weniger als zwei Feldblindproben gemessen; zwei neben der Flasche geöffnete würden Luft und Hände bestimmen.
accounting-no-blanks-in-open-air = In der freien Luft an { $place } wurden keine zwei Blindproben geöffnet, also ist nicht gemessen, was sie brachte; zwei dort geöffnete Feldblindproben würden es zeigen.
accounting-no-blanks-in-this-air = An { $place } wurden keine zwei Feldblindproben geöffnet, auch nicht an einem Brunnen, dessen Luft gezählt und gleichwertig gefunden wurde; zwei dort geöffnete würden es zeigen.
accounting-pipe-short = Keine Blindprobe sieht das Rohr; das Wasser berührte es nicht länger, als das Programm erlaubt. Flaschen bei verschiedener Schüttung würden es vom Grundwasserleiter unterscheiden.
accounting-pipe-long = Das Wasser berührte das Rohr { $contact }, länger als die { $longest } des Programms, und keine Blindprobe sieht das Rohr; Flaschen bei verschiedener Schüttung würden es zeigen.
accounting-pipe-not-known = Wie lange das Wasser das Rohr berührte, ist nicht bekannt, und keine Blindprobe sieht das Rohr; Gefäßmessungen und die Abschnitte des Brunnens oder Flaschen bei verschiedener Schüttung würden es zeigen.
accounting-nothing-above = Nichts über den Blindproben; keine Teile.
accounting-does-not-add-up = Die Teile gehen nicht auf: { $sum } gegen { $found } in der Flasche, deren U { $expanded } beträgt; Anteile werden nicht angegeben.
accounting-bottles-disagree = Nur nach dem Modell: die Flaschen dieses Wassers liegen { $between } auseinander, mehr als das U dieser Flasche, { $expanded }; die Teile sind allein die des Modells, gemessen ist keiner davon.
accounting-of-water = Vom Metall in der Flasche zählt { $share } als „{ $left }“; { $why }.
accounting-water-at-most = Vom Metall in der Flasche zählt { $share } als „{ $left }“, und der Eigengehalt des Wassers ist höchstens so groß; { $why }.
accounting-even-blanks = Der Vertrauensbereich nimmt die { $n ->
    [one] { $n } Blindprobe als gleichmäßig gestreut, was eine nicht zeigt; wären Blindproben so schief
   *[other] { $n } Blindproben als gleichmäßig gestreut, was so wenige nicht zeigen; wären sie so schief
} wie eine Lognormalverteilung mit einer Streuung so groß wie ihr Mittel, enthielte er den wahren Wert in etwa 91 statt 95 von 100 Fällen.
accounting-and = { $one } { $more }
accounting-of-hundred = Von 100 Teilen { $element } in dieser Flasche: { $parts }.
accounting-of-hundred-by-model = Nach dem Modell, von 100 Teilen { $element } in dieser Flasche: { $parts }.
accounting-parts-of = { $number } { $part }
accounting-parts-under-one = unter 1 { $part }
accounting-parts-at-most = { $number } { $part } (höchstens { $most })
