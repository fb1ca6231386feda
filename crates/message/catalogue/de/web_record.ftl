web_record-title = Aufzeichnung
web_record-what = Es kommen immer nur Zeilen hinzu. Jeder Vorgang ist ein Ereignis: wer, wann, was, warum; es ist an das vorige gekettet.
web_record-head = Prüfsumme des letzten Eintrags
web_record-no-head = noch keine
web_record-head-what = Halten Sie sie anderswo fest, wie es jeder Bericht tut: Eine Kette allein kann nicht zeigen, dass ihr Ende abgeschnitten wurde.
web_record-acts = Was getan wurde: { $n ->
    [one] ein Vorgang von Menschen
   *[other] { $n } Vorgänge von Menschen
}
web_record-sorted = Das Neueste zuerst.
web_record-shown = { $shown } von { $of } sind gezeigt.
web_record-older = Ältere Vorgänge
web_record-newest = Die neuesten Vorgänge
web_record-nothing = Noch wurde nichts getan.
web_record-number = Vorgang { $number }
web_record-hash-begins = Prüfsumme beginnt
web_record-wrote = Geschriebene Zeilen
web_record-reason = Begründung
web_record-derived = danach hat das Programm neu abgeleitet: { $n ->
    [one] ein Schritt
   *[other] { $n } Schritte
}
web_record-taken-back = zurückgenommen mit Vorgang { $event }
web_record-did-new-programme = { $who } hat das Programm begonnen.
web_record-did-import = { $who } hat { $n ->
    [one] eine Datei
   *[other] { $n } Dateien
} eingelesen.
web_record-did-entry = { $who } hat Zeilen von Hand eingetragen.
web_record-did-correction = { $who } hat einen Wert berichtigt.
web_record-did-exclusion = { $who } hat etwas ausgeschlossen.
web_record-did-taken-back = { $who } hat etwas wieder als Beleg aufgenommen.
web_record-did-sign-off = { $who } hat für ein Urteil eingestanden.
web_record-did-key = { $who } hat einen Schlüssel vermerkt.
web_record-did-key-end = { $who } hat vermerkt, dass ein Schlüssel nicht mehr gebraucht wird.
web_record-did-signature = { $who } hat mit Schlüssel unterschrieben.
web_record-did-anchor = { $who } hat vermerkt, wer einen Kopf des Programms aufbewahrt.
web_record-did-settlement = { $who } hat entschieden, was Feldblätter verschieden sagen.
web_record-did-statement = { $who } hat eine Aussage festgehalten.
web_record-did-mapping = { $who } hat festgehalten, wie Dateien eines Labors gelesen werden.
web_record-did-names-made-one = { $who } hat zwei Namen vereinigt.
web_record-did-request-to-a-laboratory = { $who } hat einen Laborauftrag geschrieben.
web_record-did-blind-labels-opened = { $who } hat Blindetiketten geöffnet.
web_record-did-checks-taken-in = { $who } hat Prüfungen dieser Version übernommen.
web_record-did-table-of-checks-changed = { $who } hat die Tabelle der Prüfungen geändert.
web_record-did-profile-of-checks-made = { $who } hat ein Prüfprofil angelegt.
web_record-did-profile-of-checks-changed = { $who } hat ein Prüfprofil geändert.
web_record-did-profile-of-checks-chosen = { $who } hat gewählt, welches Prüfprofil urteilt.
web_record-did-undo = { $who } hat einen Vorgang zurückgenommen.
web_record-did-other = { $who } hat etwas getan, wofür diese Version keinen Satz hat:
web_record-rules = Regeln der Prüfungen
web_record-rules-what = Welche Prüfungen entscheiden, welche warnen, und die eigenen Grenzen des Programms. Eine Änderung ist die nächste Fassung, mit Begründung.
web_record-rule-unknown = Keine Prüfung dieses Programms heißt so; ihre Regel entscheidet nichts:
web_record-untaken-how = Die Leitung übernimmt sie auf der Kommandozeile oder einzeln hier.
web_record-n-rules = { $n ->
    [one] Eine Regel
   *[other] { $n } Regeln
}, entscheidende zuerst, jede in ihrer neuesten Fassung
web_record-check = Prüfung
web_record-weight = Gewicht
web_record-limit = Grenze
web_record-revision = Fassung
web_record-weight-decisive = entscheidet
web_record-weight-warning = warnt
web_record-weight-note = wird nur genannt
web_record-profiles = Prüfprofile
web_record-profiles-what = Regeln für Ergebnisse, die anders als aus Zählimpulsen stammen: von Laboren, von Messgeräten. Ein Ergebnis, das ein Profil anerkennt, sagt es überall, wo sein Urteil steht. Die Leitung wählt und ändert sie auf der Kommandozeile.
web_record-no-profile = Es gibt keines.
web_record-profile = Profil
web_record-judges = Urteilt über
web_record-rules-short = Regeln
web_record-state = Stand
web_record-on-record = verzeichnet
web_record-not-chosen = aus dieser Version, nicht gewählt
web_record-basis-counts = Ergebnisse aus Zählimpulsen
web_record-basis-reported = Konzentrationen von Laboren
web_record-basis-meter = Messwerte von Geräten
web_record-choices = Welches Profil über welche Ergebnisse urteilt
web_record-no-choice = Niemand hat eines gewählt: Die Regeln oben urteilen über alles.
web_record-judged-by = Urteil nach
web_record-table-of-checks = der Tabelle der Prüfungen
web_record-laboratory = Labor
web_record-analyte = Stoff
web_record-any = jedes
web_record-results = Ergebnisse
web_record-chosen-by = Gewählt von
web_record-because = Weil
web_record-people = Personen
web_record-correct = berichtigen
web_record-no-people = Niemand ist verzeichnet.
web_record-files = Dateien, wie sie kamen: { $n }
web_record-no-files = Noch ist keine Datei eingelesen.
web_record-size = Größe
web_record-file-rows = Datenzeilen
web_record-enter-person = Eine Person eintragen
web_record-enter-quality = Eintragen, was ein Labor über seine Qualität sagt
web_record-change-rule = Eine Regel der Prüfungen ändern
web_record-copy = Kopie des Programms
web_record-undo = Ein Einlesen zurücknehmen
web_record-undo-act = Vorgang
web_record-undo-act-what = Seine Nummer oder der Anfang seiner Prüfsumme, wie in der Liste: ein Einlesen oder eingetippte Zeilen.
web_record-kept = Sie bleibt auf Dauer erhalten.
web_record-undo-it = Zurücknehmen
web_record-undo-what = Die Zeilen bleiben verzeichnet und zählen nicht mehr, und was aus ihnen abgeleitet wurde, folgt. Die Dateien dürfen wieder eingelesen werden. Worauf spätere Vorgänge beruhen, wird nicht zurückgenommen: Sie werden genannt.
web_record-one-name = Zwei Namen, die einer sind
web_record-one-name-kind = Wovon es Namen sind
web_record-one-name-old = Der alte Name
web_record-one-name-old-what = Was ihn trägt, wird von da an unter dem anderen Namen gelesen; er bleibt, wie er geschrieben wurde.
web_record-one-name-new = Der Name, der bleibt
web_record-one-name-do = Vereinigen
web_record-verify = Ist noch alles, was es war?
web_record-verify-do = Prüfen
web_record-verify-what = Jeder gespeicherte Wert wird mit seiner Prüfsumme verglichen und jedes Ergebnis neu aus seinen Rohdaten abgeleitet.
web_record-noted = Prüfsumme des letzten Eintrags, anderswo festgehalten
web_record-noted-what = Wie sie am Fuß eines Berichts steht; darf leer bleiben. Mit ihr fällt eine Aufzeichnung auf, deren Ende abgeschnitten wurde.
web_record-verifying = Die Aufzeichnung wird geprüft
web_record-comparing = Jeder gespeicherte Wert wird mit seiner Prüfsumme verglichen, jedes Ergebnis neu abgeleitet
web_record-altered = { $n ->
    [one] { $n } Unterschied
   *[other] { $n } Unterschiede
}: Die Aufzeichnung ist nicht, was sie war.
web_record-not-derived = Jeder gespeicherte Wert ist, was er war; { $n ->
    [one] { $n } abgeleiteter kommt
   *[other] { $n } abgeleitete kommen
} anders heraus.
web_record-intact = { $n ->
    [one] { $n } Ereignis
   *[other] { $n } Ereignisse
}: Jeder gespeicherte Wert und jede Herleitung ist, was sie war.
web_record-taking-back = Vorgang { $act } wird zurückgenommen
web_record-keeping = Die Entscheidung wird festgehalten, alles wird neu abgeleitet
web_record-rows-stay = { $n ->
    [one] 1 Zeile bleibt verzeichnet und zählt
   *[other] { $n } Zeilen bleiben verzeichnet und zählen
} nicht mehr.
web_record-making-one = Zwei Namen werden vereinigt
web_record-deriving = Ergebnisse und Urteile werden abgeleitet
web_record-rows-renamed = { $n ->
    [one] { $n } Zeile wird
   *[other] { $n } Zeilen werden
} unter dem neuen Namen gelesen.
web_record-kind-analyte = Stoff
web_record-kind-fraction = Fraktion
web_record-kind-quantity = Messgröße
web_record-kind-well = Brunnen
web_record-kind-person = Person
web_record-kind-site = Ort
web_record-kind-lot = Charge
web_record-kind-acid = Säure
web_record-kind-filter = Filter
web_record-report = Bericht
web_record-report-what = Entsteht aus der Aufzeichnung, wie sie steht, für einen Leserkreis und eine Frage. Am Fuß steht die Prüfsumme des letzten Eintrags, damit später jeder sagen kann, aus welcher Aufzeichnung er stammt.
web_record-reader = Wer liest es?
web_record-reader-full = Die Wissenschaft: der Bericht, Seite 1 zuerst, Anhänge dahinter
web_record-reader-leaflet = Die Nachbarschaft: eine Seite in einfachen Worten
web_record-reader-authority = Die Behörde: eine Seite, Überschreitungen zuerst
web_record-reader-package = Andere Programme: das offene Datenpaket mit Rohdateien und Prüfsummen
web_record-reader-supplement = Gutachtende eines Aufsatzes: Tabellen als PDF und Webseite und das Datenpaket
web_record-reader-backup = Sie selbst: eine Kopie des ganzen Programms, um sie anderswo aufzubewahren
web_record-question = Wovon? (nur der Bericht)
web_record-scope-newest = Der neueste Probenahmetag mit Ergebnissen
web_record-scope-trip = Probenahmetag { $trip }
web_record-scope-all = Die ganze Aufzeichnung
web_record-scope-from = Alle Probenahmetage seit einem Tag
web_record-since = Seit
web_record-since-what = Ein Tag wie 14.07.2026; nur wo „seit einem Tag“ gewählt ist.
web_record-since-wrong = Gefunden: „{ $found }“, erwartet: ein Tag wie 14.07.2026.
web_record-wells = Brunnen
web_record-wells-what = Alle, wo keiner angekreuzt ist.
web_record-language = Sprache des Papiers
web_record-contact = Wen man fragen kann
web_record-contact-what = Für die Nachbarschaft: Name, Ort, Telefon. Ohne sie ist die Seite als Entwurf bezeichnet.
web_record-more = Abschnitte und Lizenz
web_record-sections = Abschnitte
web_record-sections-what = Des Berichts, mit Kommas: wie ein Titel beginnt. Alle, wo es leer bleibt.
web_record-licence = Lizenz
web_record-licence-what = Eines Datenpakets oder Supplements, wie andere sie finden sollen.
web_record-make = Erstellen
web_record-look = Seite 1 zeigen
web_record-page-one = Seite 1, wie sie gedruckt würde
web_record-no-page-one = Es gibt keine Seite 1 zu zeigen: Ein Datenpaket oder eine Kopie hat keine.
web_record-no-front = Der Bericht hat keine erste Seite: Kein Ergebnis dieses Umfangs beantwortet eine Frage.
web_record-missing = Was fehlen würde
web_record-missing-nothing = Nichts, wovon diese Seite weiß.
web_record-missing-contact = Wen man fragen kann: Ohne das ist die Seite für die Nachbarschaft ein Entwurf.
web_record-missing-recalled = { $n ->
    [one] Ein Grenzwert ist
   *[other] { $n } Grenzwerte sind
} aus dem Gedächtnis zitiert und vor der Weitergabe mit dem Druck zu vergleichen.
web_record-missing-question = Die Frage: Kein Probenahmetag dieses Umfangs stellt eine, also hat Seite 1 keine Antwort.
web_record-missing-results = Ergebnisse: Es ist keines verzeichnet.
web_record-made = Erstellt, seit das Programm läuft
web_record-made-nothing = Seit das Programm läuft, wurde nichts erstellt.
web_record-made-what = Was
web_record-made-files = Dateien
web_record-made-when = Erstellt
web_record-made-by = Von
web_record-as-it-stands = wie die Aufzeichnung steht
web_record-changed-since = die Aufzeichnung hat sich seither geändert
web_record-file-pdf = PDF
web_record-file-html = Webseite
web_record-file-sqlite = Programm
web_record-file-zip = ZIP
web_record-title-full = Bericht
web_record-title-leaflet = Seite für die Nachbarschaft
web_record-title-authority = Seite für die Behörde
web_record-title-package = Datenpaket
web_record-title-supplement = Supplement
web_record-title-backup = Kopie des Programms
web_record-making = Wird erstellt: { $what }
web_record-step-laying = Es wird zusammengestellt
web_record-step-setting = Es wird als PDF gesetzt
web_record-step-copying = Das Programm wird kopiert, während es benutzt wird
web_record-step-tables = Tabellen, Rohdateien und ihre Prüfsummen werden geschrieben
web_record-step-packing = Es wird gepackt
web_record-stopped = Angehalten; nichts davon wurde behalten.
web_record-not-listed = Gefunden: „{ $found }“, erwartet: eines der aufgeführten.
web_record-no-sections = Abschnitte gibt es nur im Bericht; hier leer lassen.
web_record-gone = Es ist nicht mehr aufbewahrt: bitte neu erstellen.
web_record-no-file = Eine solche Datei gibt es nicht.
web_record-word-non-extending = ein Impuls in der Totzeit geht verloren (non-extending)
web_record-word-extending = ein Impuls in der Totzeit lässt sie neu beginnen (extending)
web_record-word-nearest = der nächste in der Masse
web_record-word-interpolate = zwischen den zwei benachbarten
web_record-word-none = nichts geschieht
web_record-word-bracket = Geraden zwischen Driftkontrollen
web_record-word-smooth = ein Polynom
web_record-word-concentration = in jedem Volumen gleich
web_record-word-mass-per-bottle = eine Masse, geteilt durch das Volumen jeder Flasche
web_record-recipe-all = Verzeichnete Rezepte: { $n ->
    [one] eine Version
   *[other] { $n } Versionen
}
web_record-table-accounting = Teile von Bilanzen
web_record-table-acid = Säuren
web_record-table-air-count = Partikelzählungen der Luft
web_record-table-aliquot = Teilproben
web_record-table-amendment = Berichtigungen
web_record-table-assigned = zugewiesene Werte
web_record-table-attributed = Anteile nach Herkunft
web_record-table-bottle = Probenflaschen
web_record-table-check-rule = Regeln der Prüfungen
web_record-table-compound = Verbindungen
web_record-table-custody = Schritte des Probenverbleibs
web_record-table-derivation = Herleitungen
web_record-table-exclusion = Ausschlüsse
web_record-table-field-entry = Einträge von Feldblättern
web_record-table-field-reading = Messwerte im Feld
web_record-table-field-sheet = Feldblätter
web_record-table-fill = Gefäßmessungen
web_record-table-filter = Filter
web_record-table-finding = Befunde
web_record-table-layer = Schichten
web_record-table-lead-source = Quellen von Blei
web_record-table-local-limit = eigene Grenzwerte
web_record-table-lot-target = Ziele von Chargen
web_record-table-lot = Chargen
web_record-table-mapping = Leseweisen von Dateien
web_record-table-measurand = Messgrößen
web_record-table-person = Personen
web_record-table-raw-file = Dateien
web_record-table-raw-part = Teile von Dateien
web_record-table-reading = Ablesungen von Zählimpulsen
web_record-table-recipe = Rezepte
web_record-table-result = Ergebnisse
web_record-table-run = Messläufe
web_record-table-same-name = vereinigte Namen
web_record-table-share = Anteile der Messunsicherheit
web_record-table-sign-off = Unterschriften
web_record-table-signature = Muster von Quellen
web_record-table-site = Orte
web_record-table-source-fact = Angaben zu Quellen
web_record-table-spike = Aufstockungen
web_record-table-statement-use = Verwendungen von Aussagen
web_record-table-statement = Aussagen
web_record-table-subject = Gegenstände
web_record-table-trip = Probenahmetage
web_record-table-verdict = Urteile
web_record-table-vial = Messgefäße
web_record-table-well-section = Brunnenabschnitte
web_record-table-well = Brunnen
web_record-table-blind-label = Blindetiketten
web_record-table-check-profile = Prüfprofile
web_record-table-lab-request = Laboraufträge
web_record-table-laboratory-quality = Angaben zur Qualität eines Labors
web_record-table-profile-choice = Wahlen eines Prüfprofils
web_record-table-profile-rule = Regeln von Prüfprofilen
web_record-table-unblinding = Entblindungen
web_record-table-undone = zurückgenommene Vorgänge
web_record-table-undone-rows = Zeilen, die nicht mehr zählen
web_record-table-person-key = Schlüssel von Personen
web_record-table-key-end = Schlüssel außer Gebrauch
web_record-table-signed = Unterschriften mit Schlüssel
web_record-table-anchor = Köpfe, die andere aufbewahren

web_record-table-tracer = Tracer des Alters
web_record-table-input-history = Verläufe von Regen und Luft
web_record-table-recharge-fact = Angaben zur Neubildung
