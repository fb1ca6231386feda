authority-title = { $site }: Ergebnisse und Grenzwerte
authority-title-of-several = Ergebnisse und Grenzwerte
authority-subtitle = Blatt für die Behörde
authority-what = { $wells } Brunnen, { $bottles ->
    [one] { $bottles } Flasche mit Wasser
   *[other] { $bottles } Flaschen mit Wasser
}, { $results ->
    [one] { $results } Ergebnis
   *[other] { $results } Ergebnisse
}: { $accepted } anerkannt, { $provisional } vorläufig, { $rejected } verworfen. Verglichen mit { $limits } Grenzwerten nach der Entscheidungsregel jedes Grenzwerts; neben der Antwort steht die Wahrscheinlichkeit, dass der wahre Wert unter dem Grenzwert liegt.
authority-caption = Höchstes Ergebnis jedes Stoffes gegen den strengsten Grenzwert
authority-local-caption = Gegen örtliche Grenzwerte
authority-limit = Grenzwert
authority-probability-under = P(darunter)
authority-verdict = Urteil
authority-result = Ergebnis
authority-accepted = anerkannt
authority-provisional = vorläufig
authority-rejected = verworfen
authority-more = { $n ->
    [one] { $n } weiterer Stoff liegt unter seinem strengsten Grenzwert.
   *[other] { $n } weitere Stoffe liegen jeweils unter dem strengsten Grenzwert.
}
authority-statements = Aussagen
authority-notes = * aus dem Gedächtnis, noch mit dem Dokument zu vergleichen. Verworfene Ergebnisse fehlen. ± ist die erweiterte Unsicherheit, 95 %.
