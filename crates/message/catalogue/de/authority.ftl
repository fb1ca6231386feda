authority-title = { $site }: Ergebnisse und Grenzwerte
authority-title-of-several = Ergebnisse und Grenzwerte
authority-subtitle = Blatt für die Behörde
authority-what = { $wells } Brunnen, { $streams ->
    [0] kein Bach
    [one] { $streams } Bach
   *[other] { $streams } Bäche
}, { $bottles ->
    [one] { $bottles } Flasche mit Wasser
   *[other] { $bottles } Flaschen mit Wasser
}, { $results ->
    [one] { $results } Ergebnis
   *[other] { $results } Ergebnisse
}: { $accepted } anerkannt, { $provisional } vorläufig, { $rejected } verworfen. Verglichen mit { $limits ->
    [one] { $limits } Grenzwert nach seiner Entscheidungsregel
   *[other] { $limits } Grenzwerten nach der Entscheidungsregel jedes Grenzwerts
}.
authority-statements = Aussagen
authority-asked = { $element }, die Frage des Probenahmetags
