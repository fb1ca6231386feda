web_places-wells = Brunnen
web_places-streams = Gewässer
web_places-wells-none = Noch ist kein Brunnen beschrieben.
web_places-describe-well = Brunnen beschreiben
web_places-describe-site = Ort beschreiben
web_places-flow = Schüttung
web_places-flow-none = nicht gemessen
web_places-newest = Neueste
web_places-newest-none = kein Ergebnis
web_places-next-visit = Nächster Besuch
web_places-next-none = keiner geplant
web_places-pipe = Rohr
web_places-site = Ort
web_places-all-results = { $n ->
    [one] { $n } Ergebnis
   *[other] { $n } Ergebnisse
}
web_places-section-of = { $well }: { $found } tief, Tiefe maßstäblich
web_places-section-none = kein Ausbau in der Aufzeichnung
web_places-wells-more = { $n ->
    [one] { $n } weiterer
   *[other] { $n } weitere
}
web_places-well-title = Der Brunnen { $well }
web_places-stream-title = Das Gewässer { $well }
web_places-no-well = Im Programm gibt es keinen Brunnen „{ $well }“.
web_places-to-newest = Neueste Ergebnisse
web_places-to-all = Alle Ergebnisse
web_places-to-time = Zeitreihe
web_places-add-section = Vollrohr und Filterrohr eintragen
web_places-add-layer = Schichten eintragen
web_places-add-readings = Messwerte eintragen
web_places-add-fills = Gefäßmessungen eintragen
web_places-visits = Gemessen bei den Besuchen
web_places-holds = Was der Brunnen enthält
web_places-holds-caption = Der Wert von { $well } je Tag: der gemeinsame Wert der Flaschen, die übereinstimmen
web_places-holds-foot = Was den Flaschen gemeinsam ist, steckt einmal und ganz in U. Wo sie abweichen, wird keine Zahl angegeben: Ihre Werte stehen nebeneinander.
web_places-what = Was
web_places-value = Wert ± U
web_places-verdict = Urteil
web_places-day = Tag
web_places-fraction = Fraktion
web_places-bottles = Probenflaschen
web_places-bottle = Probenflasche
web_places-put-back = Mit allem Ausgeschlossenen
web_places-because = Wegen
web_places-notes = Feldnotizen
web_places-note = { $what }: { $found }
web_places-newest-caption = Die neuesten Ergebnisse von { $well }
web_places-newest-empty = Kein Ergebnis dieses Brunnens in der Aufzeichnung.
web_places-filled = Gefüllt
web_places-entered = Wie eingetragen
web_places-acts = Eintragen und berichtigen
web_places-trips = Probenahmetage
web_places-trip = Probenahmetag
web_places-trips-caption = { $n ->
    [one] { $n } Probenahmetag, neueste zuerst
   *[other] { $n } Probenahmetage, neueste zuerst
}
web_places-trips-newest = { $n ->
    [one] Der neueste von { $found } Probenahmetagen
   *[other] Die neuesten { $n } von { $found } Probenahmetagen
}
web_places-trips-none = Noch ist kein Probenahmetag in der Aufzeichnung.
web_places-plan = Nächsten Probenahmetag planen
web_places-enter-trip = Probenahmetag eintragen
web_places-enter-lot = Flaschencharge eintragen
web_places-enter-acid = Säurecharge eintragen
web_places-enter-filter = Filtercharge eintragen
web_places-enter-person = Person eintragen
web_places-state = Stand
web_places-planned = geplant
web_places-on-the-way = unterwegs
web_places-in-the-run = im Messlauf
web_places-done = erledigt
web_places-nothing-taken = keine Probenflaschen in der Aufzeichnung
web_places-start = Beginn
web_places-question = Was er entscheiden soll
web_places-persons = Wer
web_places-acids = Säurechargen
web_places-filters = Filterchargen
web_places-lots = Flaschenchargen
web_places-trip-title = Probenahmetag { $trip }
web_places-no-trip = Im Programm gibt es keinen Probenahmetag „{ $trip }“.
web_places-from-to = { $day } bis { $limit }
web_places-to-decide = Zu entscheiden: { $what }
web_places-day-persons = Genommen von { $who }.
web_places-day-weather = Wetter: { $what }.
web_places-day-wind = Wind: { $what }.
web_places-day-dust = Staub: { $what }.
web_places-day-salt = Streusalz: { $what }.
web_places-day-engines = Motoren: { $what }.
web_places-day-bottles = { $n ->
    [one] { $n } Probenflasche, davon { $found } gemessen.
   *[other] { $n } Probenflaschen, davon { $found } gemessen.
}
web_places-tabs = Teile des Probenahmetags
web_places-readings = Messwerte
web_places-air = Luft
web_places-journey = Transport
web_places-enter-bottle = Probenflasche eintragen
web_places-enter-readings = Messwerte
web_places-enter-fills = Gefäßmessungen
web_places-enter-counts = Partikelzählungen
web_places-enter-custody = Schritt des Probenverbleibs
web_places-enter-spikes = Aufstockungen
web_places-gas = Schwefelwasserstoff sammelt sich in geschlossenen Brunnenhäusern und tötet: erst nach Gasmessung betreten und die örtlichen Vorschriften befolgen.
web_places-no-flow = keine Gefäßmessung
web_places-flow-cannot = eine Gefäßmessung kann nicht stimmen
web_places-flow-unknown = Schüttung nicht bekannt: { $what }.
web_places-flow-is = Schüttung { $found }.
web_places-contact = Kontaktzeit in { $what }: { $found }.
web_places-no-readings = An diesem Probenahmetag wurde noch an keinem Brunnen gemessen.
web_places-steady-caption = Ob die Messwerte an { $well } vor der Probenahme konstant waren
web_places-reading = Messwert
web_places-how-many = Anzahl
web_places-steady = Konstant
web_places-since = Seit
web_places-rule = Regel
web_places-air-title = Die Luft über den offenen Flaschen
web_places-no-air = Keine Probenflasche eines Brunnens in der Aufzeichnung, deshalb wird keine Luft beurteilt.
web_places-bottles-caption = { $n ->
    [one] { $n } Probenflasche und was auf sie einwirkte
   *[other] { $n } Probenflaschen und was auf jede einwirkte
}
web_places-bottles-none = Noch keine Probenflasche dieses Probenahmetags in der Aufzeichnung.
web_places-kind = Art
web_places-well = Brunnen
web_places-lot = Charge
web_places-by = Von
web_places-acid = Säure
web_places-openings = Öffnungen
web_places-in-cabinet = Offen im Schrank
web_places-outdoors = Offen im Freien
web_places-correct = Berichtigen
web_places-nothing = Nichts in der Aufzeichnung.
web_places-none-reading = Kein Messwert in der Aufzeichnung.
web_places-none-fill = Keine Gefäßmessung in der Aufzeichnung.
web_places-none-count = Keine Partikelzählung in der Aufzeichnung.
web_places-none-custody = Kein Schritt des Probenverbleibs in der Aufzeichnung.
web_places-none-section = Vollrohr und Filterrohr sind nicht in der Aufzeichnung.
web_places-none-layer = Die Schichten sind nicht in der Aufzeichnung.
web_places-none-lot = Keine Charge in der Aufzeichnung.
web_places-none-acid = Keine Säurecharge in der Aufzeichnung.
web_places-none-filter = Keine Filtercharge in der Aufzeichnung.
web_places-of-well = Der Brunnen
web_places-of-sections = Vollrohr und Filterrohr
web_places-of-layers = Schichten
web_places-of-readings = Messwerte an den Brunnen
web_places-of-fills = Gefäßmessungen
web_places-of-counts = Partikelzählungen
web_places-of-custody = Schritte des Probenverbleibs
web_places-of-trip = Der Probenahmetag
web_places-lots-title = Flaschenchargen
web_places-lots-how = Darf eine Charge hinaus? Ihre Flaschenblindwerte werden mit dem Zielwert jedes Metalls verglichen, mit einer einseitigen Toleranzgrenze (Owen 1958, aus dem Gedächtnis). Die Blindproben müssen zufällig aus der Charge gezogen und wie sie behandelt sein.
web_places-lots-acid = Säure zum Waschen ist konzentriert: Handschuhe, Schutzbrille, Säure ins Wasser geben, örtliche Vorschriften zuerst.
web_places-lots-none = Keine Flaschencharge in der Aufzeichnung.
web_places-lots-caption = Alle Chargen der Aufzeichnung
web_places-lot-title = Charge { $lot }
web_places-released = freigegeben
web_places-held = gesperrt
web_places-not-decided = nicht entschieden
web_places-decision = Entscheidung
web_places-cleaned-on = Gereinigt am
web_places-blanks-measured = Blindwerte gemessen
web_places-with-target = Metalle mit Zielwert
web_places-why-no-blank = Noch kein Flaschenblindwert gemessen.
web_places-why-no-target = Für keines ihrer Metalle ist ein Zielwert gesetzt.
web_places-why-decided = { $n } von { $found ->
    [one] { $found } Metall
   *[other] { $found } Metallen
} entschieden.
web_places-why-over = Über dem Zielwert: { $what }.
web_places-why-open = Mehr Blindwerte würden entscheiden: { $what }.
web_places-why-all = Jedes Metall mit Zielwert bleibt darunter.
web_places-does-note = In diesem Programm ändert die Entscheidung über die Charge kein Urteil.
web_places-does-warning = In diesem Programm sind Ergebnisse aus einer gesperrten Charge vorläufig; eine nicht entschiedene ändert keines.
web_places-does-decisive = In diesem Programm sind Ergebnisse aus einer gesperrten Charge verworfen, aus einer nicht entschiedenen vorläufig.
web_places-correct-lot = Charge berichtigen
web_places-bottle-of-lot = Probenflasche daraus eintragen
web_places-lot-blanks = Charge { $lot }: jeder Flaschenblindwert, pg je Flasche, ± U
web_places-metal = Metall
web_places-target = Zielwert
web_places-none-set = keiner gesetzt
web_places-no-u = (ohne U)
web_places-opens-case = ± ist U, 95 %. Eine Zahl öffnet ihren Nachweis.
web_places-lots-fold = Charge { $lot }: was ihre Flaschen erlebten und ihre Blindwerte je Metall
web_places-field = Feldblatt
web_places-field-phone = Auf dem Telefon: eine Datei, die ohne Netz arbeitet, in beiden Sprachen.
web_places-field-phone-act = Feldblatt fürs Telefon
web_places-field-paper = auf Papier
web_places-field-labels = Etiketten mit Code
web_places-field-home = Was das Telefon speichert, kommt hier heim:
web_places-field-fits = In voller Größe (100 %) drucken.
web_places-other-labels = Etiketten für einen anderen Bogen
web_places-labels-act = Etiketten als PDF
web_places-page-width = Seitenbreite, mm
web_places-page-height = Seitenhöhe, mm
web_places-across = Etiketten nebeneinander
web_places-down = Etiketten untereinander
web_places-label-width = Etikettbreite, mm
web_places-label-height = Etikettenhöhe, mm
web_places-left = Linker Rand, mm
web_places-top = Oberer Rand, mm
web_places-gap-across = Abstand nebeneinander, mm
web_places-gap-down = Abstand untereinander, mm
web_places-differ = Feldblätter, die abweichen
web_places-differ-of = { $what }, { $found }
web_places-says = { $who } sagt
web_places-take-this = { $found } übernehmen
web_places-record-says = Die Aufzeichnung sagt
web_places-what-holds = Was gilt
web_places-settle-reason = Grund
web_places-settle-both = Beide Einträge bleiben in der Aufzeichnung.
web_places-decide = Entscheiden
web_places-accounts = Konten
web_places-accounts-where = Sie stehen in einer eigenen Datei neben dem Programm, damit eine Kopie der Aufzeichnung keine Geheimnisse enthält.
web_places-accounts-who = Wer sich anmelden darf
web_places-accounts-none = Niemand hat ein Konto: Wer diesen Rechner benutzt, handelt als Leitung.
web_places-name = Name
web_places-role = Rolle
web_places-yourself = Sie selbst
web_places-take-away = Entfernen
web_places-take-away-of = Das Konto von { $who } entfernen
web_places-account-form = Konto anlegen, oder einem Namen eine andere Rolle oder ein anderes Passwort geben
web_places-account-first = Ab dem ersten Konto müssen sich alle anmelden, auch an diesem Rechner. Das erste gehört der Leitung.
web_places-account-ends = Eine andere Rolle, ein anderes Passwort oder ein entferntes Konto beendet die Sitzungen dieses Namens.
web_places-account-name = Wie er als Urheber in der Aufzeichnung stehen soll.
web_places-password = Passwort
web_places-password-hint = { $n ->
    [one] Mindestens { $n } Zeichen. Aufbewahrt wird nur die Prüfsumme; nach einem Fehler neu eingeben.
   *[other] Mindestens { $n } Zeichen. Aufbewahrt wird nur die Prüfsumme; nach einem Fehler neu eingeben.
}
web_places-keep = Behalten
web_places-role-reader = Lesen: sieht an, erstellt Berichte
web_places-role-sampler = Probenahme: trägt ein, was im Feld getan und gemessen wurde
web_places-role-analyst = Analytik: liest Dateien ein, wägt Belege ab
web_places-role-lead = Leitung: zeichnet, beschreibt Brunnen, ändert Prüfungen, legt Konten an
web_places-who-are-you = Wer sind Sie?
web_places-log-in = Anmelden
web_places-come-in = Anmelden
web_places-accounts-made = Konten legt an, wer dieses Programm führt, mit
web_places-too-many = Zu viele Fehlversuche; noch einmal versuchen in { $n } min.
web_places-begun-by = Begonnen von { $who }.
web_places-look-again = Noch einmal ansehen
web_places-stop = Anhalten
web_places-stop-how = Es hält an der nächsten Stelle, an der nichts halb getan bleibt.
web_places-at-work = { $n ->
    [one] in Arbeit, { $n } s
   *[other] in Arbeit, { $n } s
}
web_places-may-leave = Sie können diese Seite verlassen; die Arbeit geht weiter.
web_places-not-done = Nicht getan.
web_places-back-to-form = Zurück zum Formular
web_places-typed-stands = Was eingegeben wurde, steht dort.
web_places-done-word = Fertig.
web_places-go-on = Weiter
web_places-stopped = Vor diesem Schritt angehalten; was vorher getan wurde, gilt.
web_places-job-gone = Diese Arbeit ist hier nicht bekannt: Das Programm wurde seither neu gestartet. Was sie tat, steht in der Aufzeichnung.
web_places-deriving-decision = Neu ableiten nach der Entscheidung
web_places-deriving-step = Die Entscheidung ist behalten; alles wird neu abgeleitet
