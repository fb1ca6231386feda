absence-whose = { $authority }, { $document }
absence-whose-recalled = { $authority }, { $document }, aus dem Gedächtnis
absence-whose-stated = in der Eingabe angegeben
absence-none-found = Von { $n } Stoffen, nach denen in { $samples ->
    [one] einer Probe
   *[other] { $samples } Proben
} gesucht wurde, wurde keiner gefunden. Zusammen sind es höchstens { $sum }.
absence-none-without-sum = Von { $n } Stoffen, nach denen in { $samples ->
    [one] einer Probe
   *[other] { $samples } Proben
} gesucht wurde, wurde keiner gefunden; für { $open } davon sagt der Bericht nicht, unterhalb welcher Grenze.
absence-found = Von { $n } Stoffen, nach denen in { $samples ->
    [one] einer Probe
   *[other] { $samples } Proben
} gesucht wurde, { $k ->
    [one] wurde { $k }
   *[other] wurden { $k }
} gefunden: { $names }.
absence-sum-under = Die höchstmögliche Summe liegt unter dem Grenzwert für Summen von { $limit } ({ $whose }).
absence-sum-over = Die höchstmögliche Summe liegt über dem Grenzwert für Summen von { $limit } ({ $whose }): Ob die Summe ihn einhält, ist nicht zu sagen.
absence-blind = Bei { $n } von { $total } Stoffen liegt die Nachweisgrenze über dem Grenzwert, an dem sie zu messen sind: Über diese kann der Bericht nichts sagen ({ $names }).
absence-by-critical-value = netto + Erkennungsgrenze bei { $n }
absence-scientific = { $n } Stoffe; obere Grenzen { $low } bis { $high } { $unit } (netto + U, k = 2, bei { $net }{ $critical ->
    [none] {""}
   *[other] ; { $critical }
}; Berichtsgrenze bei { $limit }); höchstmögliche Summe { $sum } { $unit }; in { $samples } von { $samples } Proben nicht gefunden, ein Stoff ist also in weniger als { $frequency } solcher Proben in Höhe seiner Grenze vorhanden (95 %).
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
absence-sum-against = Höchstmögliche Summe { $sum } gegen { $limit } ({ $whose }).
absence-blind-share = Bei { $n } der Stoffe ({ $share }) liegt die Nachweisgrenze über dem Grenzwert, an dem sie gemessen werden: { $names }.
absence-compounds = Organische Stoffe
absence-caption = Obere Grenzen der Stoffe
absence-at-most = höchstens
absence-not-said = nicht gesagt
absence-value-found = { $value } gefunden
absence-blind-mark = ‡ Die Nachweisgrenze liegt über dem Grenzwert: Es lässt sich nichts sagen.
absence-method = Listen von Stoffen, keiner gefunden
absence-method-text = Obere Grenze jedes Stoffs: max(netto, 0) + U mit k = 2, wo ein Nettowert gegeben ist, nie unter seiner Erkennungsgrenze, sonst die Berichtsgrenze; die höchstmögliche Summe zählt sie innerhalb einer Probe zusammen. In n von n Proben nicht gefunden begrenzt die Häufigkeit auf 1 − 0,05^(1/n).
