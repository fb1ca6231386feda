expected-ordinary-workbook = die Arbeitsmappe eines Labors; diese wäre entpackt größer als jede solche
expected-sound-parts = eine ganze Arbeitsmappe, deren Teile sich alle entpacken lassen; sie ist vielleicht beschädigt: noch einmal speichern
expected-whole-workbook = eine ganze XLSX-Arbeitsmappe; die Datei ist vielleicht abgeschnitten oder beschädigt
expected-table = eine Kopfzeile und Zeilen mit Daten
expected-xlsx = eine XLSX-Arbeitsmappe oder eine Texttabelle mit der Endung .csv
expected-text-table = Text mit Trennzeichen (CSV) oder eine Arbeitsmappe (XLSX, ODS, XLS)
expected-headings-in-row = Überschriften in Zeile { $row }
expected-line-feeds = Zeilenenden mit einem Zeilenvorschub
expected-cells = { $cells }, so viele, wie es Überschriften gibt
expected-block-cells = { $cells }: die Nummer der Wiederholung und { $isotopes ->
    [one] { $isotopes } Isotop
   *[other] { $isotopes } Isotope
}
expected-a-row = mindestens eine Zeile mit Daten
expected-one-sheet = ein Blatt oder eine Zuordnung, die eines nennt: sheet = "…"
expected-sheet = ein Blatt „{ $sheet }“
expected-no-zero-byte = Text; ist das eine binäre Datei unter anderem Namen?
expected-sound-text = Text mit unversehrten Zeichen; die Datei wurde beim Umwandeln beschädigt
expected-utf = UTF-8; ist die Datei in Latin-1, muss die Zuordnung encoding = "latin-1" sagen
expected-latin = Latin-1, doch diese Bytes sind UTF-8; die Zuordnung muss encoding = "utf-8" sagen
expected-one-delimiter = ein Trennzeichen; die Zuordnung muss es nennen: delimiter = ";"
expected-closing-quote = ein schließendes Anführungszeichen; die Datei ist vielleicht abgeschnitten
expected-quote-or-line-end = vorher ein schließendes Anführungszeichen oder ein Zeilenende
expected-line-end = vorher ein Zeilenende; ist das eine Texttabelle?
expected-delimiter = ein Trennzeichen nach dem schließenden Anführungszeichen
expected-column-of-mapping = eine Spalte „{ $heading }“, die die Zuordnung { $mapping } für { $field } nennt
expected-one-of-columns = eine der Spalten { $headings }, die die Zuordnung { $mapping } für { $field } nennt
expected-replicate-columns = Spalten „{ $prefix }1…“ mit den Wiederholungen
expected-heading-once = jede Überschrift einmal
expected-entry-or-ignore = ein Eintrag in der Zuordnung oder ihr Name unter ignore = […]
expected-unit-to = eine Einheit, die sich in { $unit } umrechnen lässt
expected-unit = eine Einheit, die bekannt ist
expected-unit-known = eine Einheit, die bekannt ist; { $why }
expected-unit-or-entry = eine Einheit, die bekannt ist, oder ein Eintrag unter [units]; { $why }
expected-unit-in-heading = eine Einheit darin, zum Beispiel „Pb (ng/L)“
expected-unit-of-mapping = { $unit }, wie die Zuordnung { $mapping } sagt; die falsche von beiden ändern
expected-analyte-and-unit = ein Stoff und eine Einheit, die bekannt ist
expected-unit-of = eine Einheit für { $quantity }, zum Beispiel { $unit }
expected-unit-of-concentration = eine Einheit der Konzentration, zum Beispiel ng/L
expected-number = eine Zahl
expected-number-decimal-comma = eine Zahl mit Dezimalkomma
expected-number-decimal-point = eine Zahl mit Dezimalpunkt und ohne Tausenderzeichen
expected-number-no-thousands = eine Zahl mit Dezimalkomma und ohne Tausenderzeichen
expected-number-ordinary = eine Zahl gewöhnlicher Größe
expected-number-ordinary-in-unit = eine Zahl gewöhnlicher Größe in der Einheit der Aufzeichnung
expected-whole-number = eine ganze Zahl
expected-above-zero = eine Zahl über null
expected-zero-or-more = null oder mehr
expected-dilution = eine Verdünnung über null: Masse danach durch Masse davor; 1, wo unverdünnt
expected-bound = { $quantity } von { $lower } bis { $upper }
expected-remark = eine Bemerkung, die die Zuordnung erklärt ({ $remarks }); gefunden: Bemerkung „{ $remark }“
expected-remark-of-none = eine Bemerkung, die die Zuordnung erklärt (sie erklärt keine); gefunden: Bemerkung „{ $remark }“
expected-same-meaning = eine Bemerkung und eine Zelle, die dasselbe sagen
expected-limit-above-zero = eine Grenze über null
expected-not-negative = ein Wert von null oder mehr; die Zuordnung sagt nicht negative = "value"
expected-number-of-estimate = eine Zahl neben dem Wort für einen Schätzwert
expected-limit-beside-word = die Grenze neben dem Wort für „darunter“ oder „darüber“
expected-zero-explained = eine Zahl, die keine bloße Null ist, oder eine Zuordnung, die sagt, was eine Null bedeutet (words: "0" = …)
expected-empty-explained = eine Zahl oder eine Zuordnung, die sagt, was eine leere Zelle bedeutet (words: "" = …)
expected-beside-word = { $number } neben „{ $word }“
expected-number-or-word = eine Zahl oder ein Wort, das die Zuordnung erklärt ({ $words })
expected-number-or-word-of-none = eine Zahl oder ein Wort, das die Zuordnung erklärt (sie erklärt keines)
expected-rate = { $number }, in Impulsen je Sekunde
expected-seconds = Sekunden über null
expected-date-year-first = ein Datum wie 2026-07-15, mit oder ohne Uhrzeit wie 09:30
expected-date-day-first = ein Datum wie 15.07.2026, mit oder ohne Uhrzeit wie 09:30
expected-date-month-first = ein Datum wie 07/15/2026, mit oder ohne Uhrzeit wie 09:30
expected-day-that-exists = ein Tag, den es gibt; { $year } hat keinen Monat { $month } mit einem Tag { $day }
expected-clock = eine Uhrzeit wie 09:30 oder 09:30:15, mit einem Abstand wie +02:00 oder ohne
expected-time-that-has-been = eine Zeit in der Vergangenheit: Eingelesen wird am { $at }
expected-one-of = eines von { $words }
expected-value = ein Wert: { $field } wird gebraucht
expected-translated = ein Wert, den die Zuordnung für { $field } übersetzt ({ $values })
expected-no-text = kein Text: Diese Spalte füllt das Programm
expected-name-without-control-signs = ein Name ohne Steuerzeichen (Tabulator, Zeilenende)
expected-name-short = ein Name von höchstens { $most } Zeichen, nicht { $letters }
expected-run = der Name eines Messlaufs
expected-position = der Platz eines Gefäßes
expected-same-run = dasselbe Labor, derselbe Beginn und dasselbe Rezept in jeder Zeile eines Messlaufs
expected-one-vial = ein Gefäß je Platz
expected-one-row-a-vial = eine Zeile je Gefäß oder eine für jeden zugewiesenen Wert
expected-assigned-whole = analyte, value, u und unit zusammen
expected-assigned-once = ein zugewiesener Wert je Gefäß und Stoff
expected-assigned-value = analyte, value, u und unit für jedes Element darin
expected-integration-time = eine Messzeit für alle Wiederholungen
expected-replicate-once = jede Wiederholung einmal
expected-isotope = ein Isotop, zum Beispiel Pb208
expected-isotope-of-mapping = ein Isotop, wie die Zuordnung es schreibt (counts.heading)
expected-replicate-number = die Nummer der Wiederholung
expected-replicate-line = die Nummer einer Wiederholung oder eine Zeile, die die Zuordnung nennt oder übergeht
expected-blocks = Zeilen, die mit „{ $begin }“ beginnen
expected-preamble = vor dem ersten Block eine Zeile, die die Zuordnung erklärt (counts.blocks.preamble)
expected-one-block = ein Block je Gefäß
expected-isotopes-first = zuerst die Isotope
expected-rows-of-counts = Zeilen mit Zählimpulsen; die Datei ist vielleicht abgeschnitten
expected-vial-name = ein eigener Name für jedes Gefäß eines Messlaufs
expected-vial-of-sequence = ein Gefäß der Abfolge; zuerst die Abfolge einlesen, sie sagt, wofür jedes Gefäß ist
expected-vial-as-in-sequence = { $vial }, wie in der Abfolge
expected-same-counts = dieselben Zählimpulse; ein Messlauf, der noch einmal gemessen wird, hat einen eigenen Namen
expected-fraction = unfiltriert, filtriert oder eine Porenweite: Die Zuordnung muss sie nennen
expected-one-result = ein Ergebnis je Flasche, Stoff, Isotop und Fraktion in einer Datei
expected-label = die Bezeichnung einer Flasche
expected-same-bottle = dieselbe Art, derselbe Ort und dieselbe Zeit in jeder Zeile einer Flasche
expected-set = die Nummer eines Satzes von Wiederholungen
expected-bottle = eine Flasche, die im Programm ist; zuerst die Flaschen einlesen oder bottle.kind in der Zuordnung nennen
expected-kind-on-record = { $kind }, wie im Programm
expected-row-known = { $one } aus dem Programm
expected-row-known-or-taken = { $one } aus dem Programm oder aus einer vorher eingelesenen Datei
expected-same-as-on-record = dasselbe wie im Programm; eine Berichtigung wird mit einem Grund als solche eingegeben
expected-once-in-file = jedes einmal in einer Datei
expected-foot-deeper = eine Unterkante, die tiefer liegt als die Oberkante
expected-check = eine Prüfung, die die Software macht und ein Programm gewichtet, wie { $checks }
expected-table-people-fill = eine Tabelle der Aufzeichnung, die von Personen gefüllt wird
expected-column-of-record = eine Spalte der Aufzeichnung
expected-look = ein Blick auf das, was jetzt dort steht: „{ $text }“
expected-sheet-of-bytes = ein Feldblatt von höchstens { $bytes } Byte
expected-field-sheet = ein Feldblatt, wie das Telefon es gespeichert hat; auf dem Telefon noch einmal speichern
expected-format = ein Feldblatt, dessen Format { $format } ist
expected-version = Version { $version } des Formats
expected-text-of-sheet = ein Text: Das Blatt nennt ihn
expected-time-with-offset = eine Zeit mit ihrem Abstand von UTC, wie 2026-07-14T09:12:33+02:00
expected-entries = die Einträge, als Liste
expected-entry-number = eine eigene Nummer für jeden Eintrag
expected-counter = eine ganze Zahl ab 1 in jedem Eintrag
expected-value-of-entry = ein Wert: Der Eintrag braucht ihn
expected-open-or-shut = open oder shut
expected-counts = eine Liste von {"{"}"size_um": Größe, "count": ganze Zahl{"}"}
expected-short-text = ein Text von höchstens 4000 Zeichen
expected-bottle-columns = Spalten einer Flasche mit ihren Werten
expected-text-or-number = ein Text oder eine Zahl
expected-this-programme = ein Blatt dieses Programms ({ $id }…)
expected-same-entry = derselbe Eintrag: Ein Telefon ändert nie einen; wurde diese Datei bearbeitet?
expected-bottle-of-trip = eine Flasche der Probenahme { $trip }
expected-bottle-or-kind = eine Flasche, die im Programm ist, oder eine, die das Blatt mit ihrer Art hinzugefügt hat
expected-time-of-trip = eine Zeit von { $before ->
    [one] { $before } Tag vor
   *[other] { $before } Tagen vor
} der Probenahme bis { $after ->
    [one] { $after } Tag danach
   *[other] { $after } Tage danach
}; ging die Uhr des Telefons falsch, die Datei mit einer Zuordnung einlesen, die [clock] add_days = { $days } sagt (0: wie sie ist)
expected-time-before-taking-in = eine Zeit in der Vergangenheit; ging die Uhr des Telefons falsch, die Datei mit einer Zuordnung einlesen, die [clock] add_days = … sagt
expected-recipe-key = ein Schlüssel eines Rezepts; am nächsten liegt { $nearest } (`limpid recipes --template --lang de` erklärt alle)
expected-recipe-entry = ein Wert des eigenen Labors: Nichts tritt an seine Stelle (`limpid recipes --template --lang de` erklärt ihn)
expected-toml = ein Rezept, wie `limpid recipes --template --lang de` es schreibt
expected-some-text = ein nicht leerer Text in Anführungszeichen
expected-list-of-texts = eine Liste von Texten in Anführungszeichen
expected-whole-numbers = eine Liste ganzer Zahlen ab 1
expected-isotope-resolution = ein Isotop wie Pb208@low oder Fe56@medium/analogue
expected-list-of-isotopes = eine Liste von Isotopen wie Pb208@low
expected-word-of = eines der Wörter { $words }
expected-keys = eine Tabelle mit Schlüsseln
expected-list-of-tables = eine Liste von Tabellen
expected-percent = ein Prozentwert über null
expected-why-version = ein Grund daneben, der mit der Version aufbewahrt wird: --why "…"
expected-recipe-known = ein Rezept in der Aufzeichnung oder eines, das vor dem Messlauf eingelesen wird: eines schreiben (`limpid recipes --template --lang de` liefert den Anfang) und mit der Zuordnung „recipe“ einlesen
expected-as-row-or-corrected = was im Programm steht. Ist das Programm im Unrecht, Zeile { $row } von { $table } mit einem Grund berichtigen; ist dies eine andere Messung, sie durch ihre Zeit unterscheiden
expected-name-meant = { $one } aus dem Programm; am nächsten liegt: { $near }. Eine Person sagt, welcher Name gemeint ist oder dass der Name neu ist
expected-row-nearest = { $one } aus dem Programm oder aus einer vorher eingelesenen Datei; am nächsten liegt: { $near }
expected-target-known = nach dem Zeichen = ein Name aus dem Programm, für den der erste steht; „{ $name }“ ist keiner
expected-hidden-said = eine Zuordnung, die unter [file] sagt: hidden = "take" (sie gehören zur Tabelle) oder hidden = "leave" (sie bleiben weg)
expected-hidden-in-xlsx = das Blatt ohne sie oder als XLSX oder CSV gespeichert
expected-stored-result = ihr Ergebnis; die Datei in einer Tabellenkalkulation öffnen, rechnen lassen und noch einmal speichern
expected-coverage = eine Zuordnung, die es sagt: k = 1 neben der Überschrift bei Standardunsicherheiten, k = 2 bei mit zwei erweiterten, level = "95 %" bei halben 95-%-Intervallen
expected-coverage-of-cell = eine Zahl oder eine Zuordnung, die sagt, was hinter ± steht: plus_minus = {"{"} k = 2 {"}"}, k = 1 bei der Standardunsicherheit
expected-date-order-asked = ein Datum, dessen Tag und Monat sich unterscheiden lassen; nichts in der Datei unterscheidet sie, darum muss die Zuordnung unter [file] dates = "day-month-year" oder dates = "month-day-year" sagen
expected-decimal-asked = eine Zahl, deren Dezimalzeichen sich erkennen lässt; nichts in der Datei unterscheidet es vom Tausenderzeichen, darum muss die Zuordnung unter [file] decimal = "," oder decimal = "." sagen
expected-saved-again = ein Blatt, das sich lesen lässt; in einer Tabellenkalkulation öffnen und als XLSX oder CSV speichern

expected-text-of-at-most = { $most ->
    [one] ein Text von höchstens { $most } Zeichen
   *[other] ein Text von höchstens { $most } Zeichen
}

expected-bottle-or-well = eine Flasche, oder ein Brunnen mit dem Tag der Probenahme
expected-day-of-measurement = der Tag der Messung: Für ihn gilt der Wert
expected-tracer-with-history = ein Tracer, den Regen oder Luft brachte: 3H, SF6, CFC-11, CFC-12, CFC-113, 14C
expected-upper-end = das untere Ende oder mehr
expected-tracer-of-price = der Tracer, für den der Preis gilt
