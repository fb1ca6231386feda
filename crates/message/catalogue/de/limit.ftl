limit-is-below = { $analyte } { $result } liegt unter { $limit }: { $why }.
limit-is-above = { $analyte } { $result } liegt über { $limit }: { $why }.
limit-is-open = { $analyte } { $result } lässt sich von { $limit } nicht unterscheiden: { $why }.
limit-named = dem Grenzwert { $limit } für { $analyte } ({ $authority }, { $kind }; { $document }, { $edition }{ $provenance ->
    [seen] {""}
    [local] , von einer Person eingetragen
   *[other] , aus dem Gedächtnis
})
limit-named-range = dem Bereich { $low } bis { $high } für { $analyte } ({ $authority }, { $kind }; { $document }, { $edition }{ $provenance ->
    [seen] {""}
    [local] , von einer Person eingetragen
   *[other] , aus dem Gedächtnis
})
limit-under-with = Der wahre Wert liegt mit der Wahrscheinlichkeit { $p } unter dem Grenzwert; verlangt: { $guard }
limit-inside-with = Der wahre Wert liegt mit der Wahrscheinlichkeit { $p } im Bereich; verlangt: { $guard }
limit-without-u-under = Es ist keine Unsicherheit angegeben; der Wert selbst liegt unter dem Grenzwert und bliebe dort mit 95 % Wahrscheinlichkeit für u bis { $u }
limit-without-u-over = Es ist keine Unsicherheit angegeben; der Wert selbst liegt über dem Grenzwert und bliebe dort mit 95 % Wahrscheinlichkeit für u bis { $u }
limit-bound-and-range = Eine obere Grenze allein sagt nichts über einen Bereich
limit-not-detected = nur eine obere Schranke ist bekannt, und sie liegt am oder unter dem Grenzwert
limit-not-sensitive = nur eine obere Schranke ist bekannt, und sie liegt über dem Grenzwert: Ein empfindlicheres Verfahren, oder Leerproben, die den ganzen Weg der Flasche trafen, würden entscheiden
limit-over-range = Die Ablesung überschritt ihren Messbereich, der am oder über dem Grenzwert endet
limit-over-range-under = Die Ablesung überschritt ihren Messbereich, der unter dem Grenzwert endet: verdünnen und neu messen
limit-guard-none = kein Sicherheitsband: Der Wert selbst entscheidet
limit-guard-probability = { $share } Wahrscheinlichkeit
limit-guard-band = ein Sicherheitsband von { $r } U, U = 2u
limit-recalled-yet = aus dem Gedächtnis angegebene Grenzwerte sind noch mit ihrem Dokument zu vergleichen
limit-comparison = ein Vergleich mit Grenzwerten; wofür das Wasser genutzt werden darf, sagt das örtliche Gesundheitsamt
limit-against = Gegen Grenzwerte
limit-method = Ergebnisse gegen Grenzwerte
limit-method-text = Wahrscheinlichkeit, dass der wahre Wert unter dem Grenzwert liegt, normal oder Student-t um das Ergebnis; „darunter“ verlangt 95 %. Der strengste Grenzwert jedes Stoffs ist das niedrigste obere Ende in einer Einheit und Bezugsform unter allen Tabellen, die eigenen einer Person eingeschlossen.
limit-introduction = Vergleich mit veröffentlichten Grenzwerten und solchen, die eine Person hinzugefügt hat, wie sie am Tag der jeweiligen Probe gelten. Er sagt nichts darüber, wofür das Wasser genutzt werden darf.
limit-nearest = Das höchste Ergebnis jedes Stoffs gegen den strengsten Grenzwert, das nächste zuerst
limit-marks = * aus dem Gedächtnis: noch mit dem Dokument zu vergleichen. Verworfene Ergebnisse fehlen. Nicht bezeichnete Grenzwerte wurden gesehen.
limit-against-local = Gegen örtliche Grenzwerte
limit-whose-kind = wessen, Art
limit-result-is = das Ergebnis liegt
limit-probability-under = P(darunter)
limit-whose = { $authority }, { $kind }
limit-whose-recalled = { $authority }, { $kind } *
limit-not-tested = Nicht geprüft: { $names }.
limit-not-tested-nor-microbes = Nicht geprüft: Keime, { $names }.
limit-microbes-not-tested = Nicht geprüft: Keime.
limit-who-decides = Wer entscheidet: das örtliche Gesundheitsamt.
