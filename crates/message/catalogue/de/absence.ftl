absence-whose = { $authority }, { $document }
absence-whose-recalled = { $authority }, { $document }, aus dem Gedächtnis
absence-whose-short = gesetzt von { $authority }
absence-whose-short-recalled = gesetzt von { $authority }, aus dem Gedächtnis
absence-whose-stated = in der Eingabe angegeben
absence-none-found = Von { $n ->
    [one] { $n } Stoff, nach dem
   *[other] { $n } Stoffen, nach denen
} in { $samples ->
    [one] einer Probe
   *[other] { $samples } Proben
} gesucht wurde, wurde keiner gefunden. Zusammen sind es höchstens { $sum }.
absence-none-without-sum = Von { $n ->
    [one] { $n } Stoff, nach dem
   *[other] { $n } Stoffen, nach denen
} in { $samples ->
    [one] einer Probe
   *[other] { $samples } Proben
} gesucht wurde, wurde keiner gefunden; für { $open } davon gibt es keine geltende Grenze: Keine ist angegeben, oder das Ergebnis ist verworfen.
absence-found = Von { $n ->
    [one] { $n } Stoff, nach dem
   *[other] { $n } Stoffen, nach denen
} in { $samples ->
    [one] einer Probe
   *[other] { $samples } Proben
} gesucht wurde, { $k ->
    [one] wurde { $k }
   *[other] wurden { $k }
} gefunden: { $items }.
absence-found-one = { $name } { $x } ({ $beside }; { $laboratory })
absence-laboratory-not-stated = Labor nicht angegeben
absence-over-limit = über dem Grenzwert von { $limit }, { $whose }
absence-under-limit = unter dem Grenzwert von { $limit }, { $whose }
absence-beside-limit = Grenzwert { $limit }, { $whose }: ob darunter oder darüber, ist nicht zu sagen
absence-no-limit = kein Grenzwert in der Tabelle
absence-found-rejected = verworfen: Der Wert gilt nicht
absence-others-not-found = { $n ->
    [one] Der andere wurde nicht gefunden: höchstens { $high }.
   *[other] Die anderen { $n } wurden nicht gefunden: je höchstens { $high }.
}
absence-others-without-bound = { $n ->
    [one] Der andere wurde nicht gefunden; eine geltende Grenze gibt es nicht: Keine ist angegeben, oder das Ergebnis ist verworfen.
   *[other] Die anderen { $n } wurden nicht gefunden; für { $open } davon gibt es keine geltende Grenze: Keine ist angegeben, oder das Ergebnis ist verworfen.
}
absence-group-sum = { CAPITAL($group) } ({ $n } gesucht, { $k } gefunden): Die Summe des Gefundenen ist { $lower }, mit den Grenzen der übrigen höchstens { $upper }; { $beside }.
absence-group-sum-open = { CAPITAL($group) } ({ $n } gesucht, { $k } gefunden): Die Summe des Gefundenen ist { $lower }; wie viel es höchstens ist, ist nicht bekannt, da keine Grenze angegeben ist für { $names }; { $beside }.
absence-sum-limit-over = damit über dem Grenzwert ihrer Summe, { $limit } ({ $whose })
absence-sum-limit-under = damit unter dem Grenzwert ihrer Summe, { $limit } ({ $whose })
absence-sum-limit-beside = ob das den Grenzwert ihrer Summe, { $limit } ({ $whose }), einhält, ist nicht zu sagen
absence-sum-limit-missing = ob das den Grenzwert ihrer Summe, { $limit } ({ $whose }), einhält, ist nicht zu sagen: Nach { $missing ->
    [one] { $missing } Stoff
   *[other] { $missing } Stoffen
} der Liste wurde nicht gesucht
absence-sum-limit-unknown = unter dem Grenzwert ihrer Summe, { $limit } ({ $whose }), nur wenn keiner dieser Stoffe zu ihnen gehört, was nicht bekannt ist: { $names }
absence-sum-limit-coming = ein Grenzwert ihrer Summe, { $limit } ({ $whose }), gilt erst ab { $from }
absence-without-limit = Kein Grenzwert in der Tabelle für { $n ->
    [one] einen davon
   *[other] { $n } davon
}: { $names }.
absence-sum-under = Die höchstmögliche Summe liegt unter dem Grenzwert für Summen von { $limit } ({ $whose }).
absence-sum-over = Die höchstmögliche Summe liegt über dem Grenzwert für Summen von { $limit } ({ $whose }): Ob die Summe ihn einhält, ist nicht zu sagen.
absence-blind = Über { $n } von { $total ->
    [one] { $total } Stoff
   *[other] { $total } Stoffen
} kann der Bericht nichts sagen, weil die Nachweisgrenze über dem Grenzwert liegt: { $names }.
absence-by-critical-value = netto + Erkennungsgrenze bei { $n }
absence-scientific = { $n ->
    [one] { $n } Stoff
   *[other] { $n } Stoffe
}; obere Grenzen { $low } bis { $high } { $unit } (netto + U, k = 2, bei { $net }{ $critical ->
    [none] {""}
   *[other] ; { $critical }
}; Berichtsgrenze bei { $limit }); höchstmögliche Summe { $sum } { $unit }; in { $samples } von { $samples ->
    [one] { $samples } Probe
   *[other] { $samples } Proben
} nicht gefunden, ein Stoff ist also in weniger als { $frequency } solcher Proben in Höhe seiner Grenze vorhanden (95 %).
absence-number-form = { $name }: { $number } hat nicht die Form 1912-24-9
absence-check-digit = { $name }: Die Prüfziffer von { $number } wäre { $digit }
absence-check-digit-known = { $name }: Die Prüfziffer von { $number } wäre { $digit }; unsere Tabelle hat { $known }
absence-other-number = { $name }: die Nummer { $number }, unsere Tabelle (aus dem Gedächtnis) hat { $known }
absence-number-of-another = { $name }: Die Nummer { $number } ist nach unserer Tabelle (aus dem Gedächtnis) die von { $known }
absence-fault = { $fault }.
absence-one-compound = { $names } sind ein Stoff; er zählt einmal, mit der höheren Grenze
absence-two-names = { $names } sind ein Stoff unter zwei Namen; er zählt einmal, mit der höheren Grenze.
absence-open = kein Wert und keine Grenze: { $names }
absence-not-spoken-of = über Stoffe, nach denen nicht gesucht wurde, und über Keime ist nichts gesagt
absence-who-decides = wofür Wasser genutzt werden darf, sagt das örtliche Gesundheitsamt
absence-blind-share = Bei { $n ->
    [one] { $n } Stoff
   *[other] { $n } der Stoffe
} ({ $share }) liegt die Nachweisgrenze über dem Grenzwert, an dem sie gemessen werden: { $names }.
absence-compounds = Organische Stoffe
absence-caption = Obere Grenzen der nicht gefundenen Stoffe
absence-at-most = höchstens
absence-not-said = nicht gesagt
absence-found-caption = Gefundene Stoffe
absence-value = Wert
absence-beside-column = gegen den Grenzwert
absence-laboratory = Labor
absence-blind-mark = ‡ Die Nachweisgrenze liegt über dem Grenzwert: Es lässt sich nichts sagen.
absence-method = Listen von Stoffen
absence-method-text = Obere Grenze jedes Stoffs: max(netto, 0) + U mit k = 2, wo ein Nettowert gegeben ist, nie unter seiner Erkennungsgrenze, sonst die Berichtsgrenze; die höchstmögliche Summe zählt sie innerhalb einer Probe zusammen. Summen von Gruppen sind die, die ein Grenzwert nennt, nach seiner Liste der Mitglieder: von der Summe des Gefundenen bis zu der mit den Grenzen der übrigen. In n von n Proben nicht gefunden begrenzt die Häufigkeit auf 1 − 0,05^(1/n).
