reported-subtitle = { $results ->
    [one] { $results } berichtetes Ergebnis
   *[other] { $results } berichtete Ergebnisse
}
reported-asked = Was sagen die berichteten Konzentrationen, wie weit tragen Blindproben und Wiederholungen sie, und was fehlt, ehe man sich auf sie verlassen darf?
reported-title = Konzentrationen, wie Labore sie berichtet haben
reported-found = { $results ->
    [one] { $results } Ergebnis
   *[other] { $results } Ergebnisse
} von { $series ->
    [one] { $series } Stoff und Fraktion
   *[other] { $series } Stoffen und Fraktionen
} { $results ->
    [one] kam
   *[other] kamen
} herein; davon { $below ->
    [one] liegt { $below }
   *[other] liegen { $below }
} ({ $share }) unter einer Grenze.
reported-judged = { $accepted ->
    [one] { $accepted } Ergebnis von Brunnen- und Flusswasser ist
   *[other] { $accepted } Ergebnisse von Brunnen- und Flusswasser sind
} anerkannt, { $provisional } vorläufig, { $rejected } verworfen.
reported-judged-with = { $accepted ->
    [one] { $accepted } Ergebnis von Brunnen- und Flusswasser ist
   *[other] { $accepted } Ergebnisse von Brunnen- und Flusswasser sind
} anerkannt, { $provisional } vorläufig, { $rejected } verworfen. Was sie zurückhält: { $missing }.
reported-provisional = Vorläufig heißt nicht, dass eine Zahl falsch ist. Es sagt, was zu zeigen wäre, ehe man auf sie bauen darf.
reported-missing-recovery = keine Aufstockung zeigt, dass nichts verloren ging ({ $results })
reported-missing-uncertainty = der Bericht gibt keine Unsicherheit des Werts an ({ $results })
reported-missing-blanks = zu wenige Blindproben des Stoffs ({ $results })
reported-missing-estimated = das Labor selbst nennt den Wert eine Schätzung ({ $results })
reported-missing-limit = nicht nachgewiesen, aber nicht gesagt, unter welcher Grenze ({ $results })
reported-missing-other = { $check } ({ $results })
reported-missing-more = { $one }; { $more }
reported-waters = Hauptionen und andere berichtete Konzentrationen
reported-waters-note = ± ist die erweiterte Messunsicherheit, k = 2, wo das Labor eine angibt; < ist seine Grenze, kein Wert.
reported-below-not-stated = < nicht angegeben
reported-of-well = { $well }: { $finding }
reported-analyte = { $analyte }, { $fraction ->
    [filtered] filtriert
    [unfiltered] unfiltriert
   *[other] { $fraction }
}
reported-inventory = Was hereinkam, nach Stoff und Fraktion
reported-analyte-fraction = Stoff, Fraktion
reported-results = Ergebnisse
reported-below-limit = unter der Grenze
reported-estimated = geschätzt
reported-values = Werte
reported-limits = Grenzen
reported-inventory-note = Das gezeigte Urteil ist das ungünstigste der Reihe. Werte und Grenzen vom niedrigsten zum höchsten, wie berichtet, auf zwei Stellen.
reported-some-state-u = Die Berichte geben zu { $stated } { $values ->
    [one] des einen Werts
   *[other] der { $values } Werte
} eine Unsicherheit an.
reported-none-states-u = Die Berichte geben { $values ->
    [one] zu dem einen Wert nicht
   *[other] zu keinem der { $values } Werte
} eine Unsicherheit an.
reported-all-state-u = Die Berichte geben { $values ->
    [one] zu dem einen Wert
   *[other] zu allen { $values } Werten
} eine Unsicherheit an.
reported-evidence = Was Blindproben und Wiederholungen desselben Programms sagen
reported-found-in = gefunden in
reported-nine-in-ten = neun von zehn Proben
reported-pairs = Paare von Wiederholungen
reported-spread = Streuung eines Werts
reported-too-few = zu wenige
reported-nine-in-ten-note = Neun von zehn Proben: Mit 95 % Vertrauen enthält höchstens ein Zehntel der gleich behandelten Proben mehr als dies von anderswo; zensierte Blindproben zählen mit ihrer Grenze; es braucht 29 Blindproben.
reported-spread-note = Streuung eines Werts: Standardabweichung aus Paaren von Wiederholungen, relativ, wo alle Werte über null liegen.
reported-replicates = Wiederholungsproben: { $analyte }
reported-replicates-shown = Relativer Unterschied der Wiederholungspaare von { $analyte } gegen ihren Gehalt.
reported-replicates-under = { $pairs ->
    [one] { $pairs } Paar
   *[other] { $pairs } Paare
}; die Berichte geben zu diesen Werten keine Unsicherheit an, dies also ist von ihr bekannt.
reported-replicates-under-stated = { $pairs ->
    [one] { $pairs } Paar
   *[other] { $pairs } Paare
}; die Berichte geben zu { $stated } ihrer { $values } Werte eine Unsicherheit an.
reported-replicates-caption = Unterschiede der Wiederholungsproben: { $analyte }, der Stoff mit den meisten Paaren.
