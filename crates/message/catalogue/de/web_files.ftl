web_files-title = Dateien einlesen
web_files-what = Die Tabelle eines Labors, Sequenz und Zählimpulse eines Messlaufs, Feldblätter, Stammblätter, Rezepte: CSV, XLSX, ODS, XLS, JSON, TOML. Wählen Sie alle, die zusammengehören; Sie sehen, was übernommen würde, und jeden Fehler, ehe etwas geschrieben wird.
web_files-files = Dateien hierher ziehen oder auswählen
web_files-files-what = Höchstens { $files ->
    [one] { $files } Datei und zusammen
   *[other] { $files } Dateien und zusammen
} { $mib } MiB. Schon eingelesene Dateien ändern nichts.
web_files-why = Begründung
web_files-why-what = Bleibt beim Vorgang erhalten. Nur ein geändertes Rezept braucht eine.
web_files-look = Ansehen
web_files-how-known = Eine Tabelle, die auf keine bekannte Weise gelesen wird, führt zur Wahl ihrer Spalten.
web_files-preview = Ehe etwas übernommen wird
web_files-lacking = Wie { $n ->
    [one] eine Datei
   *[other] { $n } Dateien
} zu lesen ist, steht noch nicht fest: bitte unten wählen.
web_files-n-faults = { $n ->
    [one] 1 Fehler
   *[other] { $n } Fehler
}
web_files-faults-stop = Nichts wird übernommen, ehe sie behoben sind. Dateien werden alle zusammen eingelesen oder gar nicht.
web_files-no-faults = keine Fehler
web_files-all-can = Alles kann übernommen werden.
web_files-new = Neu
web_files-there = Schon da
web_files-changes = Ändert sich
web_files-new-none = nichts
web_files-n-of = { $what }: { $n }
web_files-same-rows = { $n ->
    [one] eine Zeile
   *[other] { $n } Zeilen
} gleichen Inhalts
web_files-same-results = { $n ->
    [one] ein Ergebnis, gleich wie zuvor, wird
   *[other] { $n } Ergebnisse, gleich wie zuvor, werden
} einmal behalten
web_files-same-file = { $n ->
    [one] eine Datei wurde
   *[other] { $n } Dateien wurden
} schon früher eingelesen
web_files-revised = { $n ->
    [one] ein Ergebnis wird
   *[other] { $n } Ergebnisse werden
} anders berichtet als zuvor und neu beurteilt
web_files-opened = { $n ->
    [one] ein Blindetikett des Auftrags { $request } wird
   *[other] { $n } Blindetiketten des Auftrags { $request } werden
} geöffnet
web_files-without = { $n ->
    [one] eine Zelle enthält kein Ergebnis und bleibt
   *[other] { $n } Zellen enthalten kein Ergebnis und bleiben
} draußen
web_files-changes-none = kein Wert, der verzeichnet ist
web_files-no-verdicts-yet = Noch ist kein Urteil verzeichnet: Keines kann sich ändern.
web_files-foresee = Ausrechnen, welche Urteile sich ändern würden
web_files-foresee-what = Es wird an einer Kopie erprobt; das Programm bleibt, wie es ist.
web_files-foreseeing = An einer Kopie wird ausgerechnet, was sich ändern würde
web_files-foreseen = { $n ->
    [one] Ein Urteil würde
   *[other] { $n } Urteile würden
} sich ändern
web_files-turned = { $n ->
    [one] Ein Urteil hat sich geändert:
   *[other] { $n } Urteile haben sich geändert:
}
web_files-foreseen-none = An einer Kopie erprobt: Kein verzeichnetes Urteil würde sich ändern.
web_files-verdict-turns = { $of }: { $old } → { $new }
web_files-and-more = und { $n } weitere
web_files-take = Alles übernehmen
web_files-take-what = Ein Vorgang der Aufzeichnung mit Ihrem Namen; danach wird alles neu abgeleitet.
web_files-how-read = Wie jede Datei gelesen wird
web_files-not-chosen = – nicht gewählt –
web_files-columns = Die Spalten wählen
web_files-again = Neu ansehen
web_files-size = { $n } kB
web_files-clock = Die Uhr des Telefons ging falsch
web_files-clock-days = Tage, die zu ihren Zeiten kommen
web_files-clock-wrong = Gefunden: „{ $found }“, erwartet: Tage von −40 000 bis 40 000.
web_files-clock-what = Die Einträge behalten die Zeiten des Telefons; was dazukommt, wird mit der Datei verzeichnet. 0 nimmt die Zeiten, wie sie sind.
web_files-names = Namen, die andere sein können
web_files-names-what = Diese Namen sind nicht verzeichnet, aber verzeichneten ähnlich. Sagen Sie bei jedem, welcher gemeint ist. Es bleibt beim Vorgang erhalten und gilt für die nächste Datei, die ebenso gelesen wird.
web_files-undecided = – nicht entschieden –
web_files-is = ist { $name }
web_files-is-new = ist neu
web_files-names-again = Mit diesen Namen neu ansehen
web_files-said = Was Sie zu Namen gesagt haben
web_files-said-read = „{ $written }“ wird als { $meant } gelesen
web_files-said-new = „{ $written }“ ist neu
web_files-forget = Alles zurücknehmen
web_files-faults = Fehler
web_files-faults-equal = Gleiche Fehler stehen zusammen.
web_files-times = { $n } ×
web_files-found = gefunden
web_files-expected = erwartet
web_files-in-row = Zeile { $row }
web_files-in-rows = Zeilen { $first } bis { $last }
web_files-in-column = Spalte
web_files-first-faults = Hier sind die ersten { $shown } von { $of } gezeigt.
web_files-would = Was übernommen würde, Datei für Datei
web_files-read-as = gelesen als
web_files-rows = { $n ->
    [one] eine Zeile
   *[other] { $n } Zeilen
}
web_files-before = Schon früher eingelesen: Nichts ändert sich.
web_files-told = Von der Datei gesagt
web_files-no-result = kein Ergebnis
web_files-first-of = Die ersten: { $what }
web_files-notes = Einen zweiten Blick wert
web_files-taking = Dateien werden eingelesen
web_files-step-taking = Die Dateien werden eingelesen, alle oder keine
web_files-step-deriving = Ergebnisse und Urteile werden abgeleitet
web_files-refused = { $n ->
    [one] Ein Fehler
   *[other] { $n } Fehler
}; bitte die Vorschau noch einmal ansehen.
web_files-took = { $file }: { $what }
web_files-took-before = { $file }: schon früher eingelesen; nichts wurde geändert
web_files-first-verdicts = { $n ->
    [one] Ein Urteil wurde geschrieben.
   *[other] { $n } Urteile wurden geschrieben.
}
web_files-values-anew = { $n ->
    [one] Ein verzeichneter Wert kam neu heraus.
   *[other] { $n } verzeichnete Werte kamen neu heraus.
}
web_files-without-results = Ohne Ergebnisse: { $why }
web_files-too-large = Die Dateien sind zusammen größer als { $mib } MiB. Eine Datei dieser Größe wird auf der Kommandozeile eingelesen, auf dem Rechner des Programms.
web_files-broke-off = Das Hochladen brach ab: { $why }. Nichts davon wurde behalten.
web_files-too-many = Mehr als { $n ->
    [one] { $n } Datei auf einmal
   *[other] { $n } Dateien auf einmal
}: bitte in Teilen einlesen.
web_files-no-file = Mit dem Formular kam keine Datei: bitte mindestens eine wählen.
web_files-gone = Diese Dateien warten hier nicht mehr: Zwei Stunden sind um, oder das Programm wurde neu gestartet. Nichts davon wurde übernommen; bitte noch einmal einlesen.
web_files-no-such-file = Eine solche Datei ist nicht dabei.
web_files-heading-other = was behalten wird
