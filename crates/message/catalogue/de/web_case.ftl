web_case-title = { $substance } in { $bottle }
web_case-filled = gefüllt { $when }
web_case-trip = Probenahmetag
web_case-field-note = Notiz vom Feld: { $note }
web_case-older = Das ist eine ältere Fassung.
web_case-newest = Die neueste
web_case-sentence-measured = Gemessen, { $state }; ± ist die erweiterte Messunsicherheit U (95 %, k = { $k }).
web_case-sentence-state = Wie gemeldet: { $state }.
web_case-sentence-no-limit = Nicht nachgewiesen; der Bericht sagt nicht, worunter.
web_case-share = Vom Metall in der Flasche: { $share }
web_case-signed-by = Unterschrieben von
web_case-findings = Was geprüft wurde
web_case-jump-derivation = Herleitung
web_case-jump-history = Verlauf
web_case-sources = Quellen
web_case-over-time = Über die Zeit
web_case-for-paper = Für Papier, alles offen
web_case-set = Flaschen dieses Wassers
web_case-set-of = { $n ->
    [one] { $n } Flasche dieses Wassers
   *[other] { $n } Flaschen dieses Wassers
}
web_case-bottle-before = vorige Flasche [
web_case-bottle-after = nächste Flasche ]
web_case-failed = { $n } nicht erfüllt
web_case-not-known = { $n } nicht bekannt
web_case-met = { $n } erfüllt
web_case-path = Der Weg der Flasche
web_case-derivation = Von der Zahl bis zu den Zählimpulsen
web_case-tree-how = Jede Zeile ist ein Schritt mit seinem Wert; geöffnet zeigt sie, woraus er berechnet ist, bis zu den Wiederholungen der Zählimpulse.
web_case-tree-u = Das u hinter einem Wert ist seine Standardunsicherheit.
web_case-told-above = oben genannt
web_case-not-shown = Was die Daten nicht zeigen können
web_case-budget = Unsicherheitsbudget
web_case-budget-caption = Woraus die Varianz des Werts besteht
web_case-budget-input = Größe
web_case-budget-share = Anteil an der Varianz, %
web_case-budget-u = Standardunsicherheit in der Einheit des Werts
web_case-history = Verlauf des Urteils
web_case-history-caption = Alle Urteile bisher, das älteste zuerst
web_case-when = Wann
web_case-who = Durch wen
web_case-verdict = Urteil
web_case-because = Wegen
web_case-not-judged = Es wurde nicht beurteilt: Es ist Beleg für andere, oder es ist noch nichts hergeleitet.
web_case-origin = Woher es kommt
web_case-run = Messlauf
web_case-file = Datei, wie sie kam
web_case-laboratory = Labor
web_case-its-method = sein Verfahren
web_case-method = Methode
web_case-engine = hergeleitet von Version
web_case-not-tested = Was nicht untersucht wurde, Keime zuerst, davon ist nicht die Rede; Rat zum Trinken gibt die örtliche Gesundheitsbehörde.
web_case-others = Andere Ergebnisse dieser Flasche
web_case-others-caption = Neueste Ergebnisse der Flasche { $bottle }
web_case-no-other = Es gibt kein anderes.
web_case-what = Was
web_case-fraction = Filtriert oder nicht
web_case-value = Wert ± U
web_case-your-word = Ihr Wort dazu
web_case-stand = Für dieses Urteil einstehen
web_case-sign-nothing = Nichts hält dieses Ergebnis zurück: Ihr Wort stünde neben dem Urteil und änderte nichts.
web_case-sign-lifts-all = Ihr Wort höbe auf: { $checks }. Das Ergebnis wäre dann anerkannt.
web_case-sign-lifts-none = Ihr Wort hebt nichts auf, was hier entscheidet: { $checks }. Das ist ein entscheidender Beleg, keine Warnung; das Ergebnis bleibt { $verdict }.
web_case-sign-lifts-some = Ihr Wort höbe auf: { $checks }. Nicht aufheben kann es: { $left }; das ist entscheidend. Das Ergebnis bleibt { $verdict }.
web_case-nobody-signs = Ein Urteil unterschreibt jemand, und niemand ist genannt: Sagen Sie oben auf der Seite, wer handelt, mit einem Namen, der als Person mit der Rolle Leitung oder Analyse aufgezeichnet ist.
web_case-enter-person = Eine Person eintragen
web_case-why-stand = Warum Sie dafür einstehen
web_case-why-stand-hint = Wird für immer aufbewahrt, mit Ihrem Namen.
web_case-sign = Unterschreiben
web_case-signing-is-the-leads = Unterschreiben ist Sache der Leitung.
web_case-take-bottle-out = Die Flasche aus den Belegen nehmen
web_case-take-bottle-back = Die Flasche wieder zu den Belegen nehmen
web_case-why-out = Warum sie nicht zählt
web_case-why-out-hint = Nichts wird gelöscht; alles, was darauf steht, wird neu hergeleitet. Wird für immer aufbewahrt, mit Ihrem Namen.
web_case-take-out = Herausnehmen
web_case-why-back = Warum sie wieder zählt
web_case-why-back-hint = Alles, was darauf steht, wird neu hergeleitet.
web_case-take-back = Zurücknehmen
web_case-weighing-is-for-analysts = Belege zu gewichten ist Sache von Analyse oder Leitung.
web_case-out-evidence = Sie ist Beleg für andere: Was darauf steht, wird ohne sie hergeleitet.
web_case-out-this = { $n ->
    [one] { $n } Ergebnis dieser Flasche wäre als ausgeschlossen verworfen; nichts wird gelöscht.
   *[other] { $n } Ergebnisse dieser Flasche wären als ausgeschlossen verworfen; nichts wird gelöscht.
}
web_case-out-no-other = Keine andere Flasche dieses Wassers ist aufgezeichnet: Es bliebe kein Wert.
web_case-out-alone = { $bottle } stünde allein: Ob Flaschen übereinstimmen, wäre nicht bekannt; sie wäre höchstens vorläufig.
web_case-out-alone-noted = { $bottle } stünde allein: Ob Flaschen übereinstimmen, wäre nicht bekannt; die Regeln dieses Ergebnisses merken das nur an.
web_case-out-fewer = Der gemeinsame Wert wäre der der { $n ->
    [one] { $n } anderen Flasche
   *[other] { $n } anderen Flaschen
}, neu beurteilt.
web_case-out-disagreement-stays = Die Abweichung bleibt als Befund.
web_case-anew = { $values ->
    [one] { $values } Wert
   *[other] { $values } Werte
} neu hergeleitet, { $verdicts ->
    [one] { $verdicts } Urteil geschrieben.
   *[other] { $verdicts } Urteile geschrieben.
}
web_case-more-turned = … und { $n ->
    [one] { $n } weiteres Urteil änderte
   *[other] { $n } weitere Urteile änderten
} sich.
web_case-without-results = Ohne Ergebnisse: { $why }
web_case-unknown-check = Die Tabelle der Prüfungen nennt „{ $check }“, was dieses Programm nicht prüft: Diese Regel entscheidet nichts.
web_case-signing = { $bottle } wird unterschrieben
web_case-signing-step = Unterschreiben und neu beurteilen
web_case-still-provisional = Ihr Wort ist aufbewahrt. Das Ergebnis bleibt vorläufig: Ein Wort steht für Warnungen ein, und hier fehlt ein entscheidender Beleg: { $checks }. Der Fall sagt, was nicht bekannt war.
web_case-not-on-record = { $person } ist nicht als Person aufgezeichnet: Tragen Sie die Person zuerst ein, mit der Rolle Leitung oder Analyse, oder handeln Sie unter dem Namen von jemandem, der es ist.
web_case-no-such-role = Die aufgezeichnete Rolle von { $person } steht für kein Urteil ein: Leitung oder Analyse ist nötig. Berichtigen Sie sie unter Aufzeichnung, Personen.
web_case-found-expected = Gefunden: { $found }; erwartet: { $expected }.
web_case-stopped = { $why }. Was bis dahin hergeleitet wurde, gilt, jeder Messlauf als Ganzes; erneutes Herleiten holt den Rest nach.
web_case-kept-not-derived = Aufbewahrt, noch nicht hergeleitet. { $why }
web_case-taking-out = { $what } wird aus den Belegen genommen
web_case-taking-back = { $what } wird wieder zu den Belegen genommen
web_case-taking-step = Die Entscheidung aufbewahren und alles neu herleiten
web_case-deriving = Neu herleiten
web_case-deriving-step = Ergebnisse und Urteile aus Rohdaten und Rezept herleiten
