dust-question = Ist Staub, was in die Feldblindproben fiel?
dust-none = Eine Anreicherung über der Erdkruste lässt sich nicht angeben: { $why }.
dust-too-few-blanks = dazu braucht es zwei Feldblindproben und zwei Transport- oder Verfahrensblindproben im Messlauf
dust-no-reference = von keinem der Elemente { $elements } wurde in den Feldblindproben mehr gefunden als in den { $beyond ->
    [trip-blanks] Transportblindproben
   *[procedural-blanks] Verfahrensblindproben
}
dust-explains = Gegen { $reference } ragt kein Element über die Erdkruste hinaus: Staub kann erklären, was hineinfiel.
dust-does-not-explain = Gegen { $reference } kam von { $elements } mehr herein, als Staub der Erdkruste brächte: Eine andere Quelle ist wahrscheinlich.
dust-added = im Feld hinzugekommen
dust-over = Faktor über { $crust }
dust-reads-as = liest sich als
dust-other-source = andere Quelle
dust-crust = Kruste kann es erklären
dust-not-seen = keine Zunahme zu sehen
dust-table = Was die Feldblindproben über die { $beyond ->
    [trip-blanks] Transportblindproben
   *[procedural-blanks] Verfahrensblindproben
} hinaus enthalten, über der oberen Kruste, gegen { $reference }
dust-factor = Faktor: das Element zu { $reference } in den Blindproben, geteilt durch dasselbe in der Kruste; eine Spalte je Krustentabelle, weil sie sich unterscheiden. Nahe 1 Kruste, über { $other } eine andere Quelle (übliche Praxis), mit zwei u. Bei filtriertem Wasser besagen solche Faktoren nichts und werden nicht angegeben.
