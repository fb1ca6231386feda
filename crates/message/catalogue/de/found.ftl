found-nothing = nichts
found-quoted = „{ $text }“
found-zero-byte = ein Nullbyte
found-byte = Byte 0x{ $byte } in { $text }
found-pdf = ein PDF-Dokument
found-old-office = eine alte binäre Office-Datei (XLS)
found-zip = ein ZIP-Archiv
found-gzip = ein gzip-Archiv
found-png = ein PNG-Bild
found-no-workbook = etwas, das keine Arbeitsmappe ist
found-under-xlsx = { $what } unter dem Namen einer XLSX-Arbeitsmappe
found-empty-file = eine leere Datei
found-parts = { $parts ->
    [one] { $parts } Teil
   *[other] { $parts } Teile
}
found-unpacks = eine Arbeitsmappe von { $packed } Byte, die sich auf { $unpacked } und mehr entpackt
found-part-unread = eine Arbeitsmappe, deren Teil { $part } nicht zu lesen ist ({ $why })
found-file = eine Datei
found-file-ending = eine .{ $ending }-Datei
found-workbook-unread = { $file }, die nicht als Arbeitsmappe zu lesen ist ({ $why })
found-workbook-broken-off = { $file }, die nicht als Arbeitsmappe zu lesen ist (das Lesen brach ab)
found-workbook-wide = { $file }, die nicht als Arbeitsmappe zu lesen ist (mehr Spalten, als ein Blatt haben kann)
found-sheets = Blätter { $sheets }
found-no-headings = keine Kopfzeile
found-no-rows = eine Kopfzeile und keine Zeile mit Daten
found-carriage-returns = Zeilenenden nur aus Wagenrückläufen
found-delimiters = ebenso viele { $one } wie { $other }
found-quote-open = eine Zelle in Anführungszeichen, die nie geschlossen wird
found-after-quote = { $text } nach dem schließenden Anführungszeichen
found-line-long = eine Zeile, die länger ist als { $size } kB
found-cells = { $cells ->
    [one] 1 Zelle
   *[other] { $cells } Zellen
}
found-columns = die Spalten { $columns }
found-times = sie steht { $times }-mal da
found-no-unit = eine Überschrift ohne Einheit
found-unit-in-heading = Einheit { $unit } in der Überschrift
found-no-analyte = kein Stoff
found-column-unnamed = eine Spalte, die die Zuordnung { $mapping } nicht nennt
found-column = eine Spalte „{ $column }“
found-table = Tabelle „{ $table }“
found-unit-for = { $unit } für { $quantity }
found-value-for = { $value } für { $quantity }
found-no-fraction = keine Fraktion
found-result-twice = ein zweites Ergebnis für { $analyte } ({ $fraction }) derselben Flasche; das erste steht in Zeile { $row }
found-bottle-differs = Flasche { $bottle }, anders beschrieben als in Zeile { $row }
found-run-differs = Messlauf { $run }, anders beschrieben als in Zeile { $row }
found-position-of-other-vial = Platz { $position } ein zweites Mal, mit einem anderen Gefäß als in Zeile { $row }
found-position-twice = Platz { $position } ein zweites Mal; er steht auch in Zeile { $row }
found-analyte-twice = Platz { $position } mit { $analyte } ein zweites Mal; er steht auch in Zeile { $row }
found-block-twice = Platz { $position } ein zweites Mal; sein erster Block steht in Zeile { $row }
found-assigned-without = ein zugewiesener Wert ohne { $missing }
found-integration-differs = { $reading } auf Platz { $position } mit anderer Messzeit als in Zeile { $row }
found-replicate-twice = Wiederholung { $replicate } von { $reading } auf Platz { $position } ein zweites Mal; die erste steht in Zeile { $row }
found-no-block = kein Block
found-replicates-first = Wiederholungen vor der Zeile mit den Isotopen
found-block-empty = ein Block ohne Wiederholungen
found-vial-name-twice = Gefäß { $vial } auf Platz { $position }; Platz { $other } in Zeile { $row } hat denselben Namen
found-standard-without-value = ein Standard auf Platz { $position } ohne zugewiesenen Wert
found-vial-of-run = Platz { $position } des Messlaufs { $run }
found-vial-at = Gefäß { $vial } auf Platz { $position }
found-other-counts = andere Zählimpulse von { $reading }, als das Programm für dieses Gefäß hat
found-other-integration = eine andere Integrationszeit von { $reading }, als das Programm für dieses Gefäß hat
found-row = { $table } { $row }
found-row-twice = { $table } { $row } ein zweites Mal; es steht auch in Zeile { $first }
found-differs = { $value }, wo { $one } dieses Namens mit { $stands } im Programm steht
found-upside-down = { $to } unter einer Oberkante bei { $from }
found-bottle = Flasche { $bottle }
found-bottle-of-kind = Flasche { $bottle } als { $kind }
found-bottle-of-other-well = Flasche { $bottle } als Flasche eines anderen Brunnens
found-bottle-of-no-trip = Flasche { $bottle } ohne Probenahme
found-bottle-of-trip = Flasche { $bottle } der Probenahme { $trip }
found-changed-meanwhile = „{ $text }“ über einem Wert, den inzwischen jemand geändert hat
found-bytes = { $bytes } Byte
found-cut-off = eine Datei, die zu früh endet (Zeile { $line })
found-no-json = kein JSON ({ $why })
found-other-kind = eine Datei anderer Art
found-number-twice = zwei Einträge mit dieser Nummer
found-no-counter = kein Zähler
found-key-unknown = ein Schlüssel, den diese Art von Eintrag nicht hat
found-column-not-set = eine Spalte, die ein Blatt nicht setzen kann
found-other-programme = ein Blatt des Programms { $name } ({ $id }…)
found-trip = Probenahme { $trip }
found-and-more = { $found } (und { $more ->
    [one] 1 weiterer Eintrag
   *[other] { $more } weitere Einträge
})
found-other-entry = ein anderer Eintrag { $entry } des Telefons { $phone }, als das Programm hat
found-days-before = { $at }, { $days ->
    [one] { $days } Tag vor
   *[other] { $days } Tage vor
} Beginn der Probenahme, { $start }
found-days-after = { $at }, { $days ->
    [one] { $days } Tag nach
   *[other] { $days } Tage nach
} Beginn der Probenahme, { $start }
found-later = { $at }, später als der Tag des Einlesens, { $day }
found-recipe-key = ein Schlüssel { $key }
found-recipe-lacks = kein Eintrag { $key }
found-recipe-value = { $key } = { $text }
found-recipe-version = ein anderer Text als der von Version { $version } des Rezepts „{ $name }“
found-no-toml = was kein TOML eines Rezepts ist: { $why }
found-otherwise-than-row = { $value }, wo { $one } als Zeile { $row } mit { $stands } im Programm steht
found-new-name = „{ $name }“
found-unknown-row = { $table } „{ $name }“
found-result-by-two-names = { $analyte } der Flasche { $bottle } ein zweites Mal, unter zwei Namen, die als einer gelesen werden
found-hidden = { $rows ->
    [one] { $rows } ausgeblendete Zeile
   *[other] { $rows } ausgeblendete Zeilen
} und { $columns ->
    [one] { $columns } ausgeblendete Spalte
   *[other] { $columns } ausgeblendete Spalten
}
found-formula-without-result = eine Formel ohne gespeichertes Ergebnis
found-coverage-unsaid = Unsicherheiten unter „{ $heading }“, von denen nichts sagt, ob sie Standardunsicherheiten oder erweiterte sind
found-unit-beside = eine Spalte in { $unit } neben einem Ergebnis in { $other }
