front-over-trip = { $place } · Bericht zum Probenahmetag { $day }
front-over-record = { $place } · Bericht über die Aufzeichnung
front-asked-of-trip = Was enthielt das Wasser von { $place } am { $day }?
front-asked-of-record = Was enthielt das Wasser von { $place }?
front-accepted = anerkannt: Jede Prüfung, die dieses Programm entscheidend nennt, ist erfüllt
front-provisional = vorläufig: Eine Prüfung, die dieses Programm entscheidend nennt, ist nicht erfüllt oder nicht bekannt
front-rejected = verworfen: Eine Prüfung, die dieses Programm entscheidend nennt, spricht dagegen
front-on = Am { $day }
front-on-a-day-not-recorded = An einem Tag, der nicht aufgezeichnet ist,
front-value = { $day } enthielt das Wasser von { $well } { $amount } { $element } (95 %: { $low } bis { $high }), der gemeinsame Wert von { $bottles ->
    [one] { $bottles } Flasche
   *[other] { $bottles } Flaschen, die übereinstimmen
}.
front-value-of-one = { $day } enthielt das Wasser von { $well } { $amount } { $element } (95 %: { $low } bis { $high }), in einer Flasche; keine zweite sagt, ob es sich wiederholt.
front-at-most = { $day } enthielt das Wasser von { $well } { $bound } { $unit } { $element }: Gefunden wurden { $found }, zusammen mit dem, was keine Blindprobe dieses Brunnens davon trennt.
front-not-found = { $day } wurde im Wasser von { $well } kein { $element } nachgewiesen: { $bound }.
front-apart = { $day } enthielten die Flaschen von { $well } { $values } { $element }. Sie weichen voneinander ab: Es wird keine Zahl genannt.
front-reported = { $day } wurden für { $well } { $values } { $element } gemeldet.
front-put-back = Mit allem, was jemand herausgenommen hat: { $amount }.
front-change-not-told = Ob es sich geändert hat, lässt sich nicht sagen: Es gibt keinen früheren Wert.
front-change-seen = { $values ->
    [one] Ein früherer Wert liegt vor.
   *[other] { $values } frühere Werte liegen vor.
}
front-method = Gemeinsamer Wert von { $bottles }; was sie gemeinsam haben, steht einmal und ungemindert im Vertrauensbereich.
front-first-measured = Erste Messung am { $day }.
front-bounded = { $bound } { $unit }
front-not-stated = eine nicht genannte Menge
front-and-more = { $n } weitere
front-clean-air = Saubere Luft
front-particles = { $counted } Teilchen ab { $size } in { $volume } Luft: höchstens { $most } im Kubikmeter (95 %)
front-particles-of-class = { $counted }; Klasse { $class } erlaubt { $allowed }.
front-blanks = Blindproben
front-blanks-taken-off = { $n } × { $kind }, Mittel { $mean }, abgezogen.
front-blanks-taken-out = Mit Begründung ausgeschlossen: { $vials }.
front-loss = Verlust
front-loss-at-most = Wiederfindung der Aufstockungen: { $recovery }. Verlust: höchstens { $most }, ab der Aufstockung; davor nicht bekannt.
front-bottles-agree = Flaschen stimmen überein
front-bottles-disagree = Flaschen weichen ab
front-one-bottle-alone = Eine Flasche allein: Nichts sagt, ob es sich wiederholt.
front-not-on-record = Nicht aufgezeichnet.
front-every-well = { $element } in jedem Brunnen an diesem Tag
front-bottle-letter = Flasche { $letter }
front-because = weil
front-never-left-out = Flaschen eines Brunnens stehen nebeneinander; eine verworfene wird gezeigt, nie weggelassen.
front-more-bottles = Bis zu { $n ->
    [one] { $n } weitere Flasche eines Brunnens steht
   *[other] { $n } weitere Flaschen eines Brunnens stehen
} in Anhang A.
front-more-wells = Gezeigt sind der gefragte Brunnen, der höchste und der niedrigste; { $n ->
    [one] { $n } weiterer steht
   *[other] { $n } weitere stehen
} in Anhang A.
front-above = Über einem veröffentlichten Grenz- oder Richtwert: { $substances } ({ $n ->
    [one] ein Stoff
   *[other] { $n } Stoffe
} insgesamt; Werte, Grenzen und Urteile im Kapitel über Grenzwerte).
front-above-in = { $substance } in { $places }
front-none-above = Nichts Gemessenes liegt über einem Grenzwert; { $n ->
    [one] ein Stoff mit Grenzwert wurde nicht gemessen.
   *[other] { $n } Stoffe mit Grenzwert wurden nicht gemessen.
}
front-whether-changed = Ob sich { $element } geändert hat: Ein Probenahmetag ist ein Punkt.
front-what-air-brought = Was die Luft in { $wells } brachte: Dort wurden keine zwei Blindproben geöffnet.
front-what-pipe-gives = Wie viel das Rohr von { $wells } abgibt: Keine Flaschen bei verschiedenem Durchfluss sagen es.
front-what-water-holds = Was das Wasser von { $wells } enthält: Die Flaschen weichen voneinander ab.
front-whether-lost = Ob in { $wells } Metall verloren ging: Dieses Wasser wurde nicht aufgestockt.
front-how-it-came = Was Luft, Flaschen, Transport und Labor beitrugen: Weder Zählimpulse noch Blindproben eines Messlaufs sind aufgezeichnet.
front-microbes = Keime: nie untersucht.
front-second-trip = Ein zweiter Probenahmetag.
front-two-blanks = Zwei Feldblindproben, geöffnet an der Luft von { $wells }.
front-one-spike = Eine Aufstockung des Wassers von { $wells }.
front-third-bottle = Eine dritte Flasche in { $wells }.
front-second-bottle = Eine zweite Flasche in { $wells }.
front-blanks-and-spikes = Feldblindproben und Aufstockungen neben den Proben, dazu die Zählimpulse des Messlaufs.
front-one-point = Ein Punkt ist kein Trend.
front-several-points = { $values ->
    [one] { $values } Wert, { $unit }, mit seinem 95-%-Vertrauensbereich
   *[other] { $values } Werte, { $unit }, mit ihren 95-%-Vertrauensbereichen
}.
front-earlier-described = Frühere Werte: { $values }; der neueste: { $newest }.
