web_runs-title = Messläufe
web_runs-title-one = Der Messlauf { $run }
web_runs-caption = { $n ->
    [one] { $n } Messlauf, der jüngste zuerst
   *[other] { $n } Messläufe, der jüngste zuerst
}
web_runs-run = Messlauf
web_runs-laboratory = Labor
web_runs-start = Beginn
web_runs-recipe = Rezept
web_runs-vials = Messgefäße
web_runs-state = Stand
web_runs-waits = die Zählimpulse fehlen noch
web_runs-reduced = ausgewertet
web_runs-no-run = Kein Messlauf ist aufgezeichnet. Labore, die Konzentrationen melden, brauchen keinen.
web_runs-files = Hereingeholte Dateien
web_runs-files-caption = { $shown } von { $all ->
    [one] { $all } Datei, ganz aufbewahrt, wie sie kam
   *[other] { $all } Dateien, ganz aufbewahrt, wie sie kamen, die jüngsten zuerst
}
web_runs-file = Datei
web_runs-mapping = Gelesen nach Zuordnung
web_runs-mapping-version = { $mapping } (Version { $version })
web_runs-rows = Zeilen
web_runs-size = Größe
web_runs-kilobytes = { $kb } kB
web_runs-no-file = Noch ist keine Datei hereingeholt.
web_runs-bring-in = Dateien hereinholen
web_runs-derive-all = Alles neu herleiten
web_runs-derive-it = Neu herleiten
web_runs-no-results = Er gibt keine Ergebnisse.
web_runs-sequence = Die Abfolge
web_runs-elements = Elemente
web_runs-vials-caption = Messgefäße in der Reihenfolge der Zeit: { $n }
web_runs-no-vial = Der Messlauf hat keine Messgefäße.
web_runs-place-in-run = Platz
web_runs-vial = Messgefäß
web_runs-role = Rolle
web_runs-bottle = Flasche
web_runs-minutes = Minuten
web_runs-taken-out = Ausgeschlossen
web_runs-out = ausgeschlossen: { $why }
web_runs-out-or-back = Heraus- oder zurücknehmen
web_runs-take-out-or-back = Einen Punkt heraus- oder zurücknehmen
web_runs-nothing-deleted = Nichts wird gelöscht: Die Entscheidung ist eine Zeile der Aufzeichnung mit Ihrem Namen und Grund, und alles, was darauf steht, wird neu hergeleitet.
web_runs-take-out = Aus den Belegen nehmen
web_runs-take-back = Wieder zu den Belegen nehmen
web_runs-which = Welche: Messlauf/Platz, Messlauf/Platz/Isotop oder eine Flasche
web_runs-reason = Grund
web_runs-reason-hint = Wird für immer aufbewahrt, mit Ihrem Namen.
